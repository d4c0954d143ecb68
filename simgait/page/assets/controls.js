/* A quantity that a person sets: a slider and a number beside it, one label for both. */

/* value brought to a multiple of `step`, and into low to high. */
function onGrid(value, low, high, step) {
  const stepped = Math.round(value / step) * step;
  return Number(Math.min(high, Math.max(low, stepped)).toFixed(6));
}

/* How far a key moves a value, in steps; null for a key that moves none. */
function stepsOfKey(event, coarse) {
  const size = event.shiftKey ? coarse : 1;
  switch (event.key) {
    case "ArrowRight": case "ArrowUp": return size;
    case "ArrowLeft": case "ArrowDown": return -size;
    case "PageUp": return coarse;
    case "PageDown": return -coarse;
    case "Home": return -Infinity;
    case "End": return Infinity;
    default: return null;
  }
}

/* A labelled slider with its number. asked: {label, unit, low, high, step, value, hint?, decimals?,
   coarse? (steps of shift and an arrow key, 5)}; onInput(value) follows while it moves, onDone(value)
   comes when it rests. Returns {node, value(), set(value), enable(yes)}. */
function slider(asked, onInput, onDone = () => {}) {
  const settled = { hint: "", coarse: 5, decimals: tickDecimals(asked.step), ...asked };
  const { low, high, step } = settled;
  const parts = sliderParts(settled);
  let now = asked.value;
  function move(value, done) {
    const next = onGrid(value, low, high, step);
    const moved = next !== now;
    now = next;
    showSlider(parts, settled, now);
    if (moved) onInput(now);
    if (done) onDone(now);
  }
  hearSlider(parts, settled, () => now, move);
  showSlider(parts, settled, now);
  return {
    node: parts.node,
    value: () => now,
    set: (value) => { now = Math.min(high, Math.max(low, value)); showSlider(parts, settled, now); },
    enable: (yes) => { parts.range.disabled = !yes; parts.number.disabled = !yes; },
  };
}

function sliderParts({ label, unit, low, high, step, hint }) {
  const id = freshId("control");
  const range = el("input", { type: "range", id, min: low, max: high, step: "any", "aria-describedby": hint ? `${id}-hint` : null });
  const number = el("input", { type: "text", inputmode: "decimal", autocomplete: "off", "aria-label": `${label}, ${spokenUnit(unit)}` });
  const said = el("span", { class: "control-said", role: "status" });
  const node = el("div", { class: "control" },
    el("span", {}, el("label", { for: id }, label), " ", hint && el("span", { class: "control-hint", id: `${id}-hint` }, hint)),
    el("span", { class: "control-number" }, number, el("span", { class: "control-unit" }, shownUnit(unit))),
    range,
    said);
  return { node, range, number, said };
}

function showSlider({ range, number }, { unit, low, high, decimals }, now) {
  range.value = String(now);
  setAttributes(range, { "aria-valuetext": `${spokenNumber(now, decimals)} ${spokenUnit(unit)}` });
  range.style.setProperty("--share", String((now - low) / (high - low)));
  if (document.activeElement !== number) number.value = shownNumber(now, decimals);
}

function hearSlider({ node, range, number, said }, { unit, low, high, step, coarse, decimals }, now, move) {
  range.addEventListener("input", () => { setText(said, ""); move(Number(range.value), false); });
  range.addEventListener("change", () => move(now(), true));
  node.addEventListener("keydown", (event) => {
    const steps = stepsOfKey(event, coarse);
    const typing = event.target === number && !["ArrowUp", "ArrowDown", "PageUp", "PageDown"].includes(event.key);
    if (steps === null || typing) return;
    event.preventDefault();
    move(Number.isFinite(steps) ? now() + steps * step : steps > 0 ? high : low, true);
    number.value = shownNumber(now(), decimals);
  });
  number.addEventListener("change", () => {
    const typed = typedNumber(number.value);
    setText(said, faultOf(typed, low, high, unit, decimals));
    if (Number.isFinite(typed)) move(typed, true);
    number.value = shownNumber(now(), decimals);
  });
}

/* A number as it is spoken. */
function spokenNumber(value, decimals) {
  return shownNumber(value, decimals).replace(MINUS, "minus ");
}

/* What a person typed as a number: a true minus and a decimal comma are understood. */
function typedNumber(text) {
  const plain = text.trim().replace(MINUS, "-").replace(",", ".");
  return plain === "" ? NaN : Number(plain);
}

/* Why a typed number is not taken as it stands; empty if it is. */
function faultOf(typed, low, high, unit, decimals) {
  const span = `${shownNumber(low, decimals)} to ${withUnit(high, unit, decimals)}`;
  if (!Number.isFinite(typed)) return `That is not a number; it may be ${span}.`;
  return typed < low || typed > high ? `It may be ${span}.` : "";
}

/* A unit as it is spoken. */
function spokenUnit(unit) {
  return { mm: "millimetres", deg: "degrees", N: "newtons", s: "seconds", "%": "per cent", 1: "" }[unit] ?? unit;
}

/* One choice of several as a row of buttons; options: [value, words]. Returns {node, set(value)}. */
function choice(label, options, value, onChange) {
  const name = freshId("choice");
  const inputs = options.map(([own, words]) => {
    const input = el("input", { type: "radio", name, value: own, checked: own === value });
    input.addEventListener("change", () => input.checked && onChange(own));
    return el("label", {}, input, el("span", {}, words));
  });
  const node = el("fieldset", { class: "choice" }, el("legend", {}, label), ...inputs);
  return {
    node,
    set: (next) => {
      for (const input of node.querySelectorAll("input")) input.checked = input.value === String(next);
    },
  };
}
