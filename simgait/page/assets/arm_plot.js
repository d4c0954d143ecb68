/* A plot with limits: like a line plot, with what the wearer can do drawn in or told above it. */

const HEAD_ROOM = 1.15; // of the axis, over what is drawn
const TOO_HIGH = 2.2; // times what is drawn: a limit beyond that is told in words

/* asked: as for a line plot, with xTitle and xUnit. draw({curves, limits, uprights}, xSpan): curves as
   there, {name, x, y, held?, thin?}; limits {name, x, y, dashed?} in y, uprights {name, x} in x.
   Returns {node, draw, mark(x)}. */
function limitPlot(asked) {
  const frame = plotFrame(asked);
  const extra = { thin: svg("path", { class: "plot-thin" }), limits: svg("g", { class: "plot-limits" }) };
  frame.grid.after(extra.limits, extra.thin);
  const state = { curves: [], shown: [], mapX: (x) => x, mapY: (y) => y, at: NaN };
  const table = unfolding("Table of this curve", (place) => refill(place, curveTable(asked, state.shown)));
  const value = el("span", { class: "plot-value" });
  const beyond = el("p", { class: "plot-beyond small" });
  const node = el("figure", { class: "plot" },
    el("figcaption", {}, el("b", {}, asked.title), " ", el("span", { class: "plot-unit" }, shownUnit(asked.unit)), value),
    frame.node, beyond, table.node);
  function mark(x) {
    state.at = x;
    moveMark(frame, state, x);
    setText(value, markedValue(asked, state.curves, x));
  }
  return {
    node,
    mark,
    draw: (given, xSpan) => {
      state.curves = given.curves;
      state.shown = [...given.curves, ...given.limits];
      setText(beyond, drawLimited(frame, extra, state, given, xSpan));
      table.refresh();
      mark(state.at);
    },
  };
}

/* Draw curves and limits; returns in words the limits that lie above the axis. */
function drawLimited(frame, extra, state, { curves, limits, uprights = [] }, [xLow, xHigh]) {
  const { width, height, left, right, top, bottom } = PLOT;
  const [low, high] = spanOf(curves.map((curve) => curve.y));
  const near = limits.filter((limit) => spanOf([limit.y])[0] <= TOO_HIGH * Math.max(high, 1e-9));
  const highest = Math.max(high, ...near.map((limit) => Math.min(spanOf([limit.y])[1], TOO_HIGH * high)), 1e-9);
  const y = roundTicks(Math.min(low, 0), HEAD_ROOM * highest, 4);
  state.mapX = straightMap([xLow, xHigh], [left, width - right]);
  state.mapY = straightMap([y.low, y.high], [height - bottom, top]);
  drawGrid(frame.grid, state, { ...roundTicks(xLow, xHigh, 5), low: xLow }, y, xHigh);
  const inside = (limit) => limit.y.map((value) => (value > y.high ? NaN : value));
  const pathOf = (own, values = (curve) => curve.y) => own.map((curve) => curvePath(curve.x, values(curve), state.mapX, state.mapY)).join("");
  frame.held.setAttribute("d", pathOf(curves.filter((curve) => curve.held)));
  frame.now.setAttribute("d", pathOf(curves.filter((curve) => !curve.held && !curve.thin)));
  extra.thin.setAttribute("d", pathOf(curves.filter((curve) => curve.thin)));
  refill(extra.limits,
    near.map((limit) => svg("path", { class: `plot-limit${limit.dashed ? " plot-limit-dashed" : ""}`, d: pathOf([limit], inside) })),
    near.map((limit) => limitName(limit, state, y.high)),
    uprights.filter((each) => each.x >= xLow && each.x <= xHigh).map((each) => uprightOf(each, state)));
  return limits.filter((limit) => !near.includes(limit)).map((limit) => `${limit.name}: ${limitSpan(limit)}, above this axis.`).join(" ");
}

function limitSpan({ y, unit }) {
  const [low, high] = spanOf([y]);
  return high - low < 0.5 ? withUnit(high, unit, 0) : `${low.toFixed(0)} to ${withUnit(high, unit, 0)}`;
}

function limitName(limit, { mapX, mapY }, highest) {
  const place = limit.y.findIndex((value) => value <= highest);
  const i = place < 0 ? 0 : place;
  return svg("text", { class: "plot-limit-name", x: (mapX(limit.x[i]) + 5).toFixed(1), y: (mapY(Math.min(limit.y[i], highest)) - 4).toFixed(1) }, limit.name);
}

function uprightOf({ name, x }, { mapX }) {
  const { height, top, bottom } = PLOT;
  const at = mapX(x).toFixed(1);
  return svg("g", {},
    svg("line", { class: "plot-upright", x1: at, x2: at, y1: top, y2: height - bottom }),
    svg("text", { class: "plot-limit-name", transform: `translate(${Number(at) - 4} ${top + 2}) rotate(-90)`, "text-anchor": "end" }, name));
}
