/* The limb as SVG: one set of shapes a limb, moved by changing attributes only. */

/* A fixed window of the room. box: {left, right, bottom, top} [m]. One metre is 1000 units. */
function roomView(box) {
  const [width, height] = [(box.right - box.left) * 1000, (box.top - box.bottom) * 1000];
  return {
    width,
    height,
    box,
    place: ([x, y]) => [(x - box.left) * 1000, (box.top - y) * 1000],
  };
}

/* The window that holds a run through all of its stance, with some air. */
function viewOfRun(run) {
  if (run === null) return roomView({ left: -0.6, right: 0.8, bottom: -0.085, top: 1.1 });
  const xs = [spanOf([run.points.hip.x]), spanOf([run.sole.x])];
  const [left, right] = spanOf(xs);
  const [, top] = spanOf([run.points.hip.y]);
  return roomView({ left: left - 0.16, right: right + 0.16, bottom: -0.085, top: top + 0.14 });
}

/* The shapes of one limb. look: "now" or "held". Returns {node, draw(pose)}. */
function limbFigure(view, look) {
  const shape = (name, extra = {}) => svg("path", { class: `limb-${name}`, ...extra });
  const parts = {
    foot: shape("foot"), contact: shape("contact"), pylon: shape("pylon"), cup: shape("cup"),
    shank: shape("flesh"), thigh: shape("flesh"), wall: shape("wall"),
  };
  const joints = ["ankle", "knee", "hip"].map((name) => svg("circle", { class: `limb-joint limb-${name}` }));
  const node = svg("g", { class: `limb limb-${look}`, "aria-hidden": "true" }, Object.values(parts), joints);
  return { node, draw: (pose) => drawLimb(view, node, parts, joints, pose) };
}

function drawLimb(view, node, parts, joints, pose) {
  node.classList.toggle("absent", pose === null);
  if (pose === null) return;
  const { place } = view;
  const thigh = Math.hypot(pose.hip[0] - pose.knee[0], pose.hip[1] - pose.knee[1]) * 1000;
  const [knee, end] = [WIDTHS.knee * thigh, WIDTHS.end * thigh];
  const { outline, contact } = footOutline(pose.ankle, pose.sole);
  const set = (part, path) => parts[part].setAttribute("d", path);
  set("foot", `${polyline(outline.map(place))}Z`);
  set("contact", contact.map((pair) => polyline(pair.map(place))).join(""));
  set("pylon", bonePath(place(pose.socket_end), 18, place(pose.ankle), 15));
  set("cup", bonePath(place(pose.brim), knee * 1.08, place(pose.socket_end), end * 0.9, true));
  set("shank", bonePath(place(pose.knee), knee, place(pose.limb_end), end * 0.8));
  set("thigh", bonePath(place(pose.hip), WIDTHS.thigh * thigh, place(pose.knee), knee));
  set("wall", cupPath(place(pose.brim), knee * 1.08, place(pose.socket_end), end * 0.9));
  ["ankle", "knee", "hip"].forEach((name, i) => {
    const [cx, cy] = place(pose[name]);
    setAttributes(joints[i], { cx: cx.toFixed(1), cy: cy.toFixed(1), r: [18, 22, 26][i] });
  });
}

/* The ground force, its line up to the knee, and the lever. Returns {node, draw(pose, weight)}. */
function forceFigure(view) {
  const line = svg("path", { class: "force-line" });
  const arrow = svg("path", { class: "force-arrow" });
  const head = svg("path", { class: "force-head" });
  const point = svg("circle", { class: "pressure-point", r: 13 });
  const lever = svg("path", { class: "lever" });
  const ends = [0, 1].map(() => svg("circle", { class: "lever-end", r: 11 }));
  const label = svg("text", { class: "lever-label drawing-text" });
  const halo = svg("path", { class: "lever-halo" });
  const node = svg("g", { class: "force", "aria-hidden": "true" }, line, arrow, head, point, halo, lever, ends, label);
  const parts = { line, arrow, head, point, lever, halo, ends, label };
  return { node, draw: (pose, weight) => drawForce(view, node, parts, pose, weight) };
}

function drawForce(view, node, parts, pose, weight) {
  const lever = pose && kneeLever(pose);
  node.classList.toggle("absent", !lever);
  if (!lever) return null;
  const { place } = view;
  const start = [pose.pressure, 0];
  const tip = [start[0] + (pose.force[0] / weight) * FORCE_LENGTH, (pose.force[1] / weight) * FORCE_LENGTH];
  const beyond = [lever.foot[0] + lever.direction[0] * 0.1, lever.foot[1] + lever.direction[1] * 0.1];
  parts.line.setAttribute("d", polyline([start, beyond].map(place)));
  drawArrow(parts, place(start), place(tip));
  const [cx, cy] = place(start);
  setAttributes(parts.point, { cx: cx.toFixed(1), cy: cy.toFixed(1) });
  const bar = [pose.knee, lever.foot].map(place);
  for (const part of [parts.lever, parts.halo]) part.setAttribute("d", polyline(bar));
  bar.forEach(([x, y], i) => setAttributes(parts.ends[i], { cx: x.toFixed(1), cy: y.toFixed(1) }));
  const ahead = lever.foot[0] > pose.knee[0];
  const away = ahead ? 40 : -40;
  setAttributes(parts.label, { x: (bar[1][0] + away).toFixed(1), y: (bar[1][1] - 14).toFixed(1), "text-anchor": ahead ? "start" : "end" });
  setText(parts.label, `${Math.abs(lever.length * 1000).toFixed(0)}\u00a0mm ${lever.length > 0 ? "behind" : "ahead"}`);
  return lever;
}

/* An arrow between two places of a drawing, as shaft and head; a very short one is only its head. */
function drawArrow({ arrow, head }, [x0, y0], [x1, y1]) {
  const size = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [ux, uy] = [(x1 - x0) / size, (y1 - y0) / size];
  const long = Math.min(46, size);
  const neck = [x1 - long * ux, y1 - long * uy];
  arrow.setAttribute("d", polyline([[x0, y0], neck]));
  head.setAttribute("d", `${polyline([[x1, y1], [neck[0] - 19 * uy, neck[1] + 19 * ux], [neck[0] + 19 * uy, neck[1] - 19 * ux]])}Z`);
}

/* The floor with a scale bar, and an arrow as long as half a body weight where forces are shown. */
function roomFigure(view, withForce = true) {
  const floor = view.place([0, 0])[1];
  const right = view.width;
  const bar = [right - 240, right - 40];
  const node = svg("g", { class: "room", "aria-hidden": "true" },
    svg("rect", { class: "room-ground", x: 0, y: floor, width: right, height: view.height - floor }),
    svg("line", { class: "room-floor", x1: 0, x2: right, y1: floor, y2: floor }),
    svg("path", { class: "room-bar", d: `M${bar[0]} ${floor + 30}v24m0 -12H${bar[1]}m0 -12v24` }),
    svg("text", { class: "drawing-text", x: bar[0] - 14, y: floor + 54, "text-anchor": "end" }, "200\u00a0mm"));
  if (withForce) {
    const parts = { arrow: svg("path", { class: "room-arrow" }), head: svg("path", { class: "room-head" }) };
    drawArrow(parts, [30, floor + 42], [30 + FORCE_LENGTH * 500, floor + 42]);
    node.append(svg("g", { class: "room-force" }, parts.arrow, parts.head,
      svg("text", { class: "drawing-text", x: 42 + FORCE_LENGTH * 500, y: floor + 54 }, "half a body weight")));
  }
  return node;
}

const LETTERS = 185; // [pixel] of both texts under the floor; with arrow and bar they need the width
const PAPER_DRAWING = 450; // [pixel] about as high as a drawing is on paper

/* Keep texts and handles of a drawing at the size of the page's letters, whatever its own size:
   `--unit` is one pixel in units of the drawing; act(unit) hears of it;
   paper: about how high the drawing is in print [pixel]. */
function keepLetters(drawing, view, act = () => {}, paper = PAPER_DRAWING) {
  const use = (unit) => {
    drawing.style.setProperty("--unit", unit.toFixed(4));
    drawing.classList.toggle("cramped", view.width < FORCE_LENGTH * 500 + 300 + LETTERS * unit);
    act(unit);
  };
  const measure = () => {
    const { width, height } = drawing.getBoundingClientRect();
    if (width > 0 && height > 0) use(Math.max(view.width / width, view.height / height));
  };
  new ResizeObserver(measure).observe(drawing);
  onPaper(() => {
    use(view.height / paper);
    return measure;
  });
}
