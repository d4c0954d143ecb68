/* The limb standing still, with the line of its load; there only where the model can stand. */

/* Returns null, or {node, told, chooser, results, show()}: the drawing, what it says in words, the choice
   between walking and standing, the measures of standing. */
function standingPictures(state, acts) {
  if (typeof state.model.stand !== "function") return null;
  const start = state.model.stand(state.model.baseline);
  if (start.refused) return null;
  const view = standingView(start);
  const parts = standingParts(state, view, acts);
  const words = Object.fromEntries(data.standing.measures.map((each) => [each.name, each]));
  const measures = measuresTable(keyFirst(words, state.page.key_standing), { heading: "What changes, standing" });
  measures.node.classList.add("standing-only");
  const show = () => {
    byId("page").classList.toggle("shows-standing", state.standing);
    if (state.standing) showStanding(state, view, parts, measures);
  };
  const chooser = choice("Show", [["walking", "walking"], ["standing", "standing still"]], state.standing ? "standing" : "walking", (next) => {
    state.standing = next === "standing";
    acts.rest();
    show();
  });
  return {
    node: el("div", { class: "standing-only" }, parts.drawing),
    told: el("div", { class: "standing-only" }, parts.told, el("p", { class: "small quiet" }, data.standing.guards)),
    chooser: el("div", { class: "view-chooser screen-only" }, chooser.node),
    results: measures.node,
    show: () => { chooser.set(state.standing ? "standing" : "walking"); show(); },
  };
}

function standingParts(state, view, acts) {
  const drawing = svg("svg", { class: "drawing", viewBox: `0 0 ${view.width.toFixed(0)} ${view.height.toFixed(0)}`, role: "group", "aria-label": "The limb standing still, drawn to scale; its handles set the alignment" });
  const held = limbFigure(view, "held");
  const figure = limbFigure(view, "now");
  const line = svg("path", { class: "load-line" });
  const point = svg("circle", { class: "pressure-point", r: 13 });
  const handles = limbHandles(drawing, view, state.model.ranges, {
    value: (name) => state.setting[name], move: acts.change, done: acts.rest, pose: () => state.stoodPose });
  drawing.append(roomFigure(view, false), held.node, figure.node, line, point, handles.node);
  keepLetters(drawing, view);
  return { drawing, held, figure, line, point, handles, told: el("p", { class: "drawing-told small" }) };
}

function standingView({ points, sole }) {
  const xs = [...Object.values(points).map((point) => point.x), ...sole.x];
  const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
  const top = points.hip.y + 0.16;
  const half = Math.max(0.5 * (top + 0.085), (Math.max(...xs) - Math.min(...xs)) / 2 + 0.1);
  return roomView({ left: middle - half, right: middle + half, bottom: -0.085, top });
}

function standingPose(stood) {
  const pose = { sole: Array.from(stood.sole.x, (x, i) => [x, stood.sole.y[i]]) };
  for (const name of POINTS) pose[name] = [stood.points[name].x, stood.points[name].y];
  return pose;
}

function showStanding(state, view, { drawing, held, figure, line, point, handles, told }, measures) {
  const stood = state.model.stand(state.setting);
  drawing.classList.toggle("stale", Boolean(stood.refused));
  state.stood = stood.refused ? `This setting cannot stand: ${stood.refused}.` : standingWords(stood);
  setText(told, state.stood);
  const before = state.model.stand(state.held);
  measures.draw(stood.refused ? null : stood.measures, before.refused ? null : before.measures);
  if (stood.refused) return;
  const pose = state.stoodPose = standingPose(stood);
  figure.draw(pose);
  held.draw(state.drawnHeld && !before.refused ? standingPose(before) : null);
  const start = [stood.pressure, 0];
  line.setAttribute("d", polyline([start, [stood.pressure, view.box.top - 0.03]].map(view.place)));
  const [cx, cy] = view.place(start);
  setAttributes(point, { cx: cx.toFixed(1), cy: cy.toFixed(1) });
  handles.show(pose);
}

const LESS_THAN_HALF = 0.45; // of the body weight on the prosthesis: less is said in words

function standingWords({ line_ahead_of_knee_mm: knee, line_ahead_of_ankle_mm: ankle, carried, measures, ending, sentence }) {
  const side = (value) => `${Math.abs(value).toFixed(0)} mm ${value >= 0 ? "ahead of" : "behind"}`;
  const does = Math.round(Math.abs(knee)) === 0 ? "" : knee > 0 ? ", which it keeps straight," : ", which it tends to fold,";
  const spared = measures.prosthesis_load_share < LESS_THAN_HALF
    ? " That is less than half of the body: the knee on this side could not hold half for minutes." : "";
  const ended = ending === "stands" ? "" : ` ${sentence[0].toUpperCase()}${sentence.slice(1)}.`;
  return `The prosthesis carries ${carried.toFixed(0)} N; the load line rises from the pressure point, ` +
    `${side(knee)} the knee${does} and ${side(ankle)} the ankle.${spared}${ended}`;
}
