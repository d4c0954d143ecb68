/* A plot with limits: like a line plot, with what the wearer can do drawn in or told above it. */

const HEAD_ROOM = 1.15; // of the axis, over what is drawn
const TOO_HIGH = 2.2; // times what is drawn: a limit beyond that is told in words

/* asked: as for a line plot, with names: "right" where limits are named at that end, and cap: true where
   curves may run out of the axis. draw({curves, limits, uprights}, xSpan): curves as there,
   {name, x, y, held?, thin?}; limits {name, x, y, unit, dashed?} in y, uprights {name, x, mark?} in x.
   Returns {node, draw, mark(x)}. */
function limitPlot(asked) {
  const frame = plotFrame(asked);
  const unit = shownUnit(asked.unit);
  Object.assign(frame, { thin: svg("path", { class: "plot-thin" }), limits: svg("g", { class: "plot-limits" }) });
  frame.grid.after(frame.limits, frame.thin);
  const state = { asked, curves: [], limits: [], uprights: [], mapX: (x) => x, mapY: (y) => y, at: NaN, width: 420, xSpan: [0, 1] };
  const table = unfolding(["Table of this curve", el("span", { class: "unseen" }, `: ${asked.title}`)], (place) => refill(place, curveTable(asked, [...state.curves, ...state.limits])));
  const value = el("span", { class: "plot-value" });
  const beyond = el("p", { class: "plot-beyond small" });
  const node = el("figure", { class: "plot" },
    el("figcaption", {}, el("b", {}, asked.title), unit && el("span", { class: "plot-unit" }, ` [${unit}]`), value),
    frame.node, beyond, table.node);
  function mark(x) {
    state.at = x;
    moveMark(frame, state, x);
    setText(value, markedValue(asked, state.curves, x));
  }
  function redraw() {
    if (state.curves.length === 0) return;
    setText(beyond, drawLimited(frame, state));
    mark(state.at);
  }
  followWidth(frame.node, state, redraw, asked.paper ?? PLOT.paper);
  return {
    node,
    mark,
    draw: ({ curves, limits, uprights = [] }, xSpan) => {
      Object.assign(state, { curves, limits, uprights, xSpan });
      redraw();
      table.refresh();
    },
  };
}

/* Draw curves and limits; returns in words the limits that lie above the axis. */
function drawLimited(frame, state) {
  const { height, left, right, top, bottom } = PLOT;
  const { curves, limits, uprights, xSpan: [xLow, xHigh], asked, width } = state;
  placeFrame(frame, width);
  const { near, y } = limitedAxis(state);
  const x = roundTicks(xLow, xHigh, width < 300 ? 3 : 5);
  state.mapX = straightMap([xLow, xHigh], [left, width - right]);
  state.mapY = straightMap([y.low, y.high], [height - bottom, top]);
  drawGrid(frame.grid, state, { ...x, ticks: x.ticks.filter((tick) => tick >= xLow - x.step / 1e6) }, y, xHigh);
  const inside = (row) => Array.from(row.y, (value) => (value > y.high ? NaN : value));
  const pathOf = (rows) => rows.map((row) => curvePath(row.x, inside(row), state.mapX, state.mapY)).join("");
  frame.held.setAttribute("d", pathOf(curves.filter((curve) => curve.held)));
  frame.now.setAttribute("d", pathOf(curves.filter((curve) => !curve.held && !curve.thin)));
  frame.thin.setAttribute("d", pathOf(curves.filter((curve) => curve.thin)));
  refill(frame.limits,
    near.map((limit) => svg("path", { class: `plot-limit${limit.dashed ? " plot-limit-dashed" : ""}`, d: pathOf([limit]) })),
    near.map((limit) => limitName(limit, state, y.high, asked.names === "right")),
    uprights.filter((each) => each.x >= xLow && each.x <= xHigh).map((each) => uprightOf(each, state)));
  return limits.filter((limit) => !near.includes(limit)).map((limit) => `${limit.name}: ${limitSpan(limit)}, above this axis.`).join(" ");
}

/* The limits that are drawn, and the axis that holds them and the curves. */
function limitedAxis({ asked, curves, limits, at }) {
  const [low, most] = spanOf(curves.map((curve) => curve.y));
  const high = asked.cap ? Math.min(most, cappedAt(limits, curves, at)) : most;
  const near = limits.filter((limit) => spanOf([limit.y])[0] <= TOO_HIGH * Math.max(high, 1e-9));
  const highest = Math.max(high, ...near.map((limit) => Math.min(spanOf([limit.y])[1], TOO_HIGH * high)), 1e-9);
  return { near, y: roundTicks(Math.min(low, 0), HEAD_ROOM * highest, 4) };
}

/* Where an axis ends whose curve runs out of it: well above the limits and the value at the mark. */
function cappedAt(limits, curves, at) {
  const now = valueAt(curves[0].x, curves[0].y, at);
  return Math.max(2.5 * Math.max(...limits.map((limit) => spanOf([limit.y])[1])), Number.isFinite(now) ? 1.5 * now : 0);
}

function limitSpan({ y, unit }) {
  const [low, high] = spanOf([y]);
  return high - low < 0.5 ? withUnit(high, unit, 0) : `${low.toFixed(0)} to ${withUnit(high, unit, 0)}`;
}

function limitName(limit, { mapX, mapY }, highest, right) {
  const place = limit.y.findIndex((value) => value <= highest);
  const i = right ? limit.x.length - 1 : Math.max(place, 0);
  return svg("text", { class: "plot-limit-name", "text-anchor": right ? "end" : "start",
    x: (mapX(limit.x[i]) + (right ? -2 : 5)).toFixed(1), y: (mapY(Math.min(limit.y[i], highest)) - 4).toFixed(1) }, limit.name);
}

function uprightOf({ name, x, mark = false }, { mapX }) {
  const { height, top, bottom } = PLOT;
  const at = mapX(x).toFixed(1);
  return svg("g", {},
    svg("line", { class: mark ? "plot-upright plot-upright-mark" : "plot-upright", x1: at, x2: at, y1: top, y2: height - bottom }),
    svg("text", { class: mark ? "plot-limit-name plot-mark-name" : "plot-limit-name", transform: `translate(${Number(at) + (mark ? 12 : -4)} ${top + 2}) rotate(-90)`, "text-anchor": "end" }, name));
}
