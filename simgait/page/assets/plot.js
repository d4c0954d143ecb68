/* A line plot of curves, with the value at a moving mark, and a table beside it. */

const PLOT = { height: 170, paper: 240, left: 46, right: 16, top: 10, bottom: 34 };

/* A plot. asked: {title, unit, decimals?, above?, below? (what + and - mean), xTitle, xUnit, xDecimals?,
   marks? (places of the table on x), paper? (its width in print)}. Curves are given as {name, x, y, held?}: a held one is the pale
   comparison. Returns {node, draw(curves, xSpan?), mark(x)}. */
function linePlot(asked) {
  const frame = plotFrame(asked);
  const unit = shownUnit(asked.unit);
  const state = { curves: [], mapX: (x) => x, mapY: (y) => y, at: NaN, width: 420, xSpan: null };
  const table = unfolding(["Table of this curve", el("span", { class: "unseen" }, `: ${asked.title}`)], (place) => refill(place, curveTable(asked, state.curves)));
  const value = el("span", { class: "plot-value" });
  const node = el("figure", { class: "plot" },
    el("figcaption", {}, el("b", {}, asked.title), unit && el("span", { class: "plot-unit" }, ` [${unit}]`), value),
    frame.node, table.node);
  function mark(x) {
    state.at = x;
    moveMark(frame, state, x);
    setText(value, markedValue(asked, state.curves, x));
  }
  function redraw() {
    drawCurves(frame, state);
    mark(state.at);
  }
  followWidth(frame.node, state, redraw, asked.paper ?? PLOT.paper);
  return {
    node,
    draw: (curves, xSpan = null) => {
      state.curves = curves;
      state.xSpan = xSpan;
      redraw();
      table.refresh();
    },
    mark,
  };
}

/* Draw a plot as wide as the place it has, so that its letters keep their size. */
function followWidth(drawing, state, redraw, paper) {
  const fit = oncePerFrame((wide) => {
    const letters = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
    const width = Math.round(wide / letters);
    if (width < 40 || width === state.width) return;
    state.width = width;
    redraw();
  });
  new ResizeObserver(([entry]) => fit(entry.contentRect.width)).observe(drawing);
  onPaper(() => {
    const before = state.width;
    state.width = paper;
    redraw();
    return () => { state.width = before; redraw(); };
  });
}

function plotFrame({ title, above = "", below = "", xTitle }) {
  const { height, top, bottom } = PLOT;
  const grid = svg("g", { class: "plot-grid" });
  const held = svg("path", { class: "plot-held" });
  const now = svg("path", { class: "plot-now" });
  const line = svg("line", { class: "plot-mark", y1: top, y2: height - bottom });
  const dot = svg("circle", { class: "plot-dot", r: 4 });
  const senses = [[above, top + 12], [below, height - bottom - 5]].map(([text, y]) =>
    svg("text", { class: "plot-sense", y, "text-anchor": "end" }, text));
  const xWords = svg("text", { class: "plot-x", y: height - 3, "text-anchor": "middle" }, xTitle);
  const node = svg("svg", { class: "plot-drawing", role: "img", "aria-label": `${title}; the table below holds its numbers.` },
    senses, grid, held, now, line, dot, xWords);
  return { node, grid, held, now, line, dot, senses, xWords };
}

function drawCurves(frame, state) {
  const { height, left, right, top, bottom } = PLOT;
  const { width } = state;
  placeFrame(frame, width);
  const [xLow, xHigh] = state.xSpan ?? spanOf(state.curves.map((curve) => curve.x));
  const [yLow, yHigh] = spanOf(state.curves.map((curve) => curve.y));
  const y = roundTicks(Math.min(yLow, 0), Math.max(yHigh, 0), 4);
  const x = roundTicks(xLow, xHigh, width < 300 ? 3 : 5);
  state.mapX = straightMap([xLow, xHigh], [left, width - right]);
  state.mapY = straightMap([y.low, y.high], [height - bottom, top]);
  drawGrid(frame.grid, state, x, y, xHigh);
  for (const [path, held] of [[frame.held, true], [frame.now, false]]) {
    const own = state.curves.filter((curve) => Boolean(curve.held) === held);
    path.setAttribute("d", own.map((curve) => curvePath(curve.x, curve.y, state.mapX, state.mapY)).join(""));
  }
}

function placeFrame({ node, senses, xWords }, width) {
  const { height, left, right } = PLOT;
  setAttributes(node, { viewBox: `0 0 ${width} ${height}` });
  for (const sense of senses) setAttributes(sense, { x: width - right - 4 });
  setAttributes(xWords, { x: (left + width - right) / 2 });
}

function drawGrid(grid, { mapX, mapY, width }, x, y, xHigh) {
  const { height, left, right, bottom } = PLOT;
  const key = [width, y.low, y.high, y.step, x.low, xHigh, x.step].join();
  if (grid.dataset.key === key) return;
  grid.dataset.key = key;
  const rows = y.ticks.map((tick) => {
    const at = mapY(tick).toFixed(1);
    return [
      svg("line", { class: Math.abs(tick) < y.step / 1e6 ? "plot-zero" : "plot-rule", x1: left, x2: width - right, y1: at, y2: at }),
      svg("text", { x: left - 6, y: Number(at) + 4, "text-anchor": "end" }, shownNumber(tick, tickDecimals(y.step))),
    ];
  });
  const columns = x.ticks.filter((tick) => tick <= xHigh + x.step / 1e6).map((tick) =>
    svg("text", { x: mapX(tick).toFixed(1), y: height - bottom + 15, "text-anchor": "middle" }, shownNumber(tick, tickDecimals(x.step))));
  grid.replaceChildren(...rows.flat(), ...columns);
}

function moveMark(frame, { curves, mapX, mapY }, x) {
  const seen = Number.isFinite(x) && curves.length > 0;
  frame.line.classList.toggle("absent", !seen);
  const now = curves.find((curve) => !curve.held);
  const y = seen && now ? valueAt(now.x, now.y, x) : NaN;
  frame.dot.classList.toggle("absent", !Number.isFinite(y));
  if (!seen) return;
  const at = mapX(x).toFixed(1);
  setAttributes(frame.line, { x1: at, x2: at });
  if (Number.isFinite(y)) setAttributes(frame.dot, { cx: at, cy: mapY(y).toFixed(1) });
}

function markedValue({ unit, decimals = decimalsOf(unit) }, curves, x) {
  const now = curves.find((curve) => !curve.held);
  return now && Number.isFinite(x) ? shownNumber(valueAt(now.x, now.y, x), decimals) : "";
}

/* The numbers of some curves at round places. */
function curveTable({ title, unit, decimals = decimalsOf(unit), xTitle, xDecimals = 0, marks = null }, curves) {
  const [low, high] = spanOf(curves.map((curve) => curve.x));
  const places = marks ?? Array.from({ length: 21 }, (_, i) => low + ((high - low) * i) / 20);
  const rows = places.filter((place) => place <= high + 1e-9).map((place) => el("tr", {},
    el("th", { scope: "row" }, shownNumber(place, xDecimals)),
    curves.map((curve) => el("td", {}, shownNumber(valueAt(curve.x, curve.y, place), decimals)))));
  return el("table", { class: "numbers" },
    el("caption", {}, `${title} [${shownUnit(unit) || "1"}]`),
    el("thead", {}, el("tr", {}, el("th", { scope: "col" }, xTitle), curves.map((curve) => el("th", { scope: "col" }, curve.name)))),
    el("tbody", {}, rows));
}
