/* The limb standing still, with the line of its load; there only where the model can stand. */

/* Returns null, or {node, chooser, choose(act), show()}. */
function standingPictures(state) {
  if (typeof state.model.stand !== "function") return null;
  const start = state.model.stand(state.model.baseline);
  if (start.refused) return null;
  const view = standingView(start);
  const figure = limbFigure(view, "now");
  const line = svg("path", { class: "load-line" });
  const point = svg("circle", { class: "pressure-point", r: 13 });
  const drawing = svg("svg", { class: "drawing", viewBox: `0 0 ${view.width.toFixed(0)} ${view.height.toFixed(0)}`, role: "img", "aria-label": "The limb standing still, with its load line" },
    roomFigure(view, false), figure.node, line, point);
  const told = el("p", { class: "small" });
  const node = el("div", { class: "drawing-standing absent" }, drawing, told);
  keepLetters(drawing, view);
  let which = "walking";
  let chosen = () => {};
  const show = () => which === "standing" && showStanding(state, view, { figure, line, point, told, drawing });
  const chooser = choice("Show", [["walking", "walking"], ["standing", "standing"]], which, (next) => {
    which = next;
    node.classList.toggle("absent", which !== "standing");
    chosen(which);
    show();
  });
  return { node, chooser: el("div", { class: "screen-only" }, chooser.node), show, choose: (act) => { chosen = act; } };
}

function standingView({ points, sole }) {
  const xs = [...Object.values(points).map((point) => point.x), ...sole.x];
  const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
  const top = points.hip.y + 0.14;
  const half = Math.max(0.55 * (top + 0.085), (Math.max(...xs) - Math.min(...xs)) / 2 + 0.1);
  return roomView({ left: middle - half, right: middle + half, bottom: -0.085, top });
}

function showStanding(state, view, { figure, line, point, told, drawing }) {
  const stood = state.model.stand(state.setting);
  drawing.classList.toggle("stale", Boolean(stood.refused));
  if (stood.refused) {
    setText(told, `This setting cannot stand: ${stood.refused}`);
    return;
  }
  const pose = { sole: Array.from(stood.sole.x, (x, i) => [x, stood.sole.y[i]]) };
  for (const name of POINTS) pose[name] = [stood.points[name].x, stood.points[name].y];
  figure.draw(pose);
  const start = [stood.pressure, 0];
  line.setAttribute("d", polyline([start, [stood.pressure, pose.hip[1] + 0.1]].map(view.place)));
  const [cx, cy] = view.place(start);
  setAttributes(point, { cx: cx.toFixed(1), cy: cy.toFixed(1) });
  const ahead = stood.line_ahead_of_knee_mm;
  setText(told, `The load line rises from the pressure point and passes ${Math.abs(ahead).toFixed(0)} mm ` +
    `${ahead >= 0 ? "ahead of" : "behind"} the knee${stood.ending && stood.ending !== "stands" ? ` (${stood.ending.replaceAll("_", " ")})` : ""}.`);
}
