/* A lesson: move one thing, predict, then see the numbers, the reason, and what was paid. */

const lesson = data.lesson;
const figureOf = Object.fromEntries(lesson.figures.map((figure) => [figure.key, figure]));
const say = liveRegion(byId("live"), 700);
const scene = SCENES[lesson.name];
const told = (key, values) => toldFigure(figureOf[key], values[key]);
const curve = scene.curve ? linePlot(scene.curve.asked) : null;
const state = { setting: lesson.control.start, guess: null, shown: false, printing: false };

/* A figure with its unit, in words. */
function toldFigure({ unit, si, decimals, words }, value) {
  return words ? words[value ? 1 : 0] : withUnit(value / si, unit, decimals);
}

function labelOf(key) {
  return figureOf[key].label;
}

/* Words with the figures in braces put in. */
function filledWords(words, now, start) {
  return words.replace(/\{(start\.)?(\w+)\}/g, (_, first, key) => told(key, first ? start : now));
}

function paragraphs(words, now, start) {
  return words.map((text) => el("p", {}, filledWords(text, now, start)));
}

const start = lessonFigures(lesson.control.start);
const stage = lessonStage(scene.view);
const control = slider({
  label: lesson.control.label, unit: lesson.control.unit, low: lesson.control.low, high: lesson.control.high,
  step: lesson.control.step, value: lesson.control.start, decimals: lesson.control.decimals, hint: lesson.control.hint,
}, (value) => moveTo(value));
const places = {
  drawing: byId("drawing"), question: byId("question"), answer: byId("answer"), numbers: byId("numbers"), ledger: byId("ledger"),
};

const numbers = el("div");
const printed = el("div", { class: "print-only" }); // the drawing with its forces, for the second page
const answer = { // head and button stay, so that neither loses the focus while figures change
  head: el("h2", { tabindex: "-1" }), body: el("div"),
  again: button("Hide it and predict again", restart, { class: "screen-only" }),
};

function moveTo(value) {
  state.setting = value;
  show();
  if (state.shown) say(() => lesson.shown.slice(0, 3).map((key) => `${labelOf(key)}: ${told(key, lessonFigures(state.setting))}`).join("; "));
}

const show = oncePerFrame(showNow);

function draw(now, shown) {
  const setting = state.setting * lesson.control.si;
  stage.clear();
  scene.draw(stage, setting, now, shown, lesson.constants, told, start);
  stage.place(scene.at(setting, lesson.constants, shown, now));
}

function showNow() {
  const now = lessonFigures(state.setting);
  draw(now, state.shown && !state.printing);
  stage.node.setAttribute("aria-label", `${lesson.title}, drawn to scale. ${lesson.control.label}: ${withUnit(state.setting, lesson.control.unit, lesson.control.decimals)}.`);
  if (state.shown) showAnswer(now);
}

/* Numbers, reason and ledger; they are in the page only after a prediction. */
function showAnswer(now) {
  refill(numbers, el("h2", {}, "Your setting in numbers"), numbersTable(now));
  const { choices, right } = lesson.question;
  const verdict = state.guess === right ? "Predicted right." : "Not quite.";
  setText(answer.head, verdict);
  refill(answer.body,
    el("p", { class: "reply" }, filledWords(choices[state.guess].reply, now, start)),
    state.guess !== right && el("p", { class: "reply" }, el("b", {}, "It is: "), `${choices[right].words}. `, filledWords(choices[right].reply, now, start)),
    ...paragraphs(lesson.explanation, now, start),
    el("p", { class: "idea" }, el("b", {}, "The idea: "), lesson.idea));
  if (curve) curve.draw(scene.curve.curves(lesson.control.start, state.setting));
  refill(places.ledger, ledgerTable(lesson, now, start, told), lesson.ledger.note && el("p", { class: "small" }, filledWords(lesson.ledger.note, now, start)));
}

function numbersTable(now) {
  const differs = state.setting !== lesson.control.start;
  return el("table", { class: "figures" },
    el("thead", {}, el("tr", {}, el("td", {}), el("th", { scope: "col" }, "now"), el("th", { scope: "col" }, "at the start"))),
    el("tbody", {}, ...lesson.shown.map((key) => el("tr", { "data-measure": key, "data-value": now[key] },
      el("th", { scope: "row" }, labelOf(key)), el("td", { class: "now" }, told(key, now)), el("td", { class: differs ? "" : "quiet" }, told(key, start))))));
}

function buildQuestion() {
  const name = freshId("guess");
  const submit = button("This is my prediction: show me", reveal, { disabled: true });
  const inputs = lesson.question.choices.map(({ words }, i) => {
    const input = el("input", { type: "radio", name, value: i });
    input.addEventListener("change", () => { state.guess = i; submit.disabled = false; });
    return el("label", { class: "guess" }, input, el("span", {}, words));
  });
  refill(places.question, el("h2", {}, "Predict first"),
    el("fieldset", {}, el("legend", {}, lesson.question.words), ...inputs),
    el("p", { class: "print-only small" }, "Why do you think so? ........................................................................"),
    submit,
    el("p", { class: "quiet small screen-only before" }, "Move the thing as much as you like before you decide. Numbers and reasons show when you have."));
}

function reveal() {
  state.shown = true;
  document.body.classList.add("shown");
  for (const input of places.question.querySelectorAll("input")) input.disabled = true;
  places.question.querySelector("button").hidden = true;
  markGuess();
  refill(places.answer, answer.head, answer.body, answer.again);
  refill(places.numbers, printed, numbers, curve && curve.node);
  for (const place of [places.answer, places.numbers, places.ledger]) place.hidden = false;
  const now = lessonFigures(state.setting);
  showAnswer(now);
  show();
  answer.head.focus({ preventScroll: true });
  places.answer.scrollIntoView({ block: "nearest", behavior: wantsStillness() ? "auto" : "smooth" });
}

function markGuess() {
  places.question.querySelectorAll(".guess").forEach((label, i) => {
    const marks = [i === state.guess && "your prediction", i === lesson.question.right && "right"].filter(Boolean);
    label.classList.toggle("is-right", i === lesson.question.right);
    if (marks.length) label.append(el("b", { class: "mark screen-only" }, ` (${marks.join(", ")})`));
  });
}

function restart() {
  state.shown = false;
  document.body.classList.remove("shown");
  for (const place of [places.answer, places.numbers, places.ledger]) { place.hidden = true; refill(place); }
  buildQuestion();
  control.set(lesson.control.start);
  moveTo(lesson.control.start);
  places.question.querySelector("input").focus();
}

/* Dragging the handle; the slider below says the same by keyboard. */
function dragHandle() {
  let off = null;
  stage.ring.addEventListener("pointerdown", (event) => {
    const [x, y] = stage.point(event);
    const [ownX, ownY] = scene.at(state.setting * lesson.control.si, lesson.constants, state.shown, lessonFigures(state.setting));
    off = [ownX - x, ownY - y];
    stage.ring.setPointerCapture(event.pointerId);
    event.preventDefault();
    control.node.querySelector("input[type=range]").focus({ preventScroll: true }); // arrow keys go on from here
  });
  stage.ring.addEventListener("pointermove", (event) => {
    if (!off) return;
    const [x, y] = stage.point(event);
    const wanted = scene.setting([x + off[0], y + off[1]], lesson.constants, state.shown);
    const { low, high, step, si } = lesson.control;
    const value = onGrid(wanted / si, low, high, step);
    if (value !== state.setting) { control.set(value); moveTo(value); }
  });
  for (const end of ["pointerup", "pointercancel"]) stage.ring.addEventListener(end, () => { off = null; });
}

/* Letters of the drawing as large on the screen as other words, on a phone too. */
function fitLetters() {
  const wide = stage.node.getBoundingClientRect().width || STAGE_WIDTH;
  const letter = Math.min(Math.max((LETTER * STAGE_WIDTH) / wide, 13), 27);
  stage.letter = letter;
  stage.node.style.setProperty("--letter", `${letter.toFixed(1)}px`);
  show();
}

/* On paper the first page asks: the drawing with its forces goes to the page of the answer. */
function printWorksheet() {
  if (state.shown) {
    draw(lessonFigures(state.setting), true);
    refill(printed, stage.node.cloneNode(true));
  }
  state.printing = true;
  showNow();
}

function endPrinting() {
  state.printing = false;
  refill(printed);
  showNow();
}

function buildTeacher() {
  const part = (title, words) => [el("h3", {}, title), ...words.map((text) => el("p", {}, text))];
  const { equation, source, given, left_out: leftOut, next_question: next } = lesson.teacher;
  byId("teacher").append(unfolding("For the teacher: equation, sources, what is left out", (place) => {
    if (place.firstChild) return;
    place.append(el("p", {}, `${lesson.idea}`), ...part("The equation", equation), ...part("Where it comes from", source),
      ...part("What is given", given), ...part("What is left out", leftOut), ...part("A next question", next),
      el("p", { class: "small screen-only" }, "Printed before a prediction, this page is a worksheet without the answer; printed after one, the answer is on the second page."));
  }).node);
}

places.drawing.append(stage.node, control.node);
buildQuestion();
buildTeacher();
dragHandle();
new ResizeObserver(fitLetters).observe(stage.node);
window.addEventListener("beforeprint", printWorksheet);
window.addEventListener("afterprint", endPrinting);
showNow();
