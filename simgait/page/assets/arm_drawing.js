/* The arm as SVG: one set of shapes an arm, moved by changing attributes only. One metre is 1000. */

const ARM_WIDTHS = { upper: 45, elbow: 36, wrist: 24 }; // half; drawn, not measured

/* The window that holds an arm through its range, the longest forearm included. */
function armView(model) {
  const { given } = model;
  const longest = model.run({ ...model.baseline, forearm_change_mm: Math.max(0, model.ranges.forearm_change_mm[1]) });
  const [from, to] = [given.arm.flexion_from, given.arm.flexion_to];
  const shown = model.lifts ? Array.from(spread(from, to, 9)) : [Math.PI / 2];
  const points = [[0, 0], ...shown.flatMap((flexion) => {
    const pose = longest.pose(flexion);
    return [pose.tip, pose.elbow];
  })];
  const [left, right] = spanOf([points.map((point) => point[0])]);
  const [bottom, top] = spanOf([points.map((point) => point[1])]);
  return roomView({ left: left - 0.13, right: right + 0.09, bottom: bottom - 0.11, top: top + 0.1 });
}

/* The window about the elbow, enlarged. */
function elbowView(model) {
  const pose = model.run(model.baseline).pose(0);
  const far = 0.001 * Math.max(model.baseline.guide_mm, 70) + 0.055;
  const [x, y] = pose.elbow;
  return roomView({ left: x - 0.85 * far, right: x + 1.25 * far, bottom: y - 0.85 * far, top: y + 1.05 * far });
}

/* The shapes of one arm. look: "now" or "held". Returns {node, draw(pose)}; null draws nothing. */
function armFigure(view, look) {
  const path = (name) => svg("path", { class: name });
  const parts = { upper: path("limb-flesh"), fore: path("limb-cup"), hook: path("arm-hook") };
  const cable = { housing: path("arm-housing"), beyond: path("arm-beyond"), cable: path("arm-cable") };
  const joints = [0, 1].map(() => svg("circle", { class: "limb-joint" }));
  const ends = [0, 1].map(() => svg("circle", { class: "arm-cable-end" }));
  const node = svg("g", { class: `limb limb-${look} arm arm-${look}`, "aria-hidden": "true" },
    Object.values(parts), joints, svg("g", { class: "arm-wires" }, Object.values(cable), ends));
  return { node, draw: (pose) => drawArm(view, node, { ...parts, ...cable, joints, ends }, pose) };
}

function drawArm(view, node, parts, pose) {
  node.classList.toggle("absent", pose === null);
  if (pose === null) return;
  const place = (point) => view.place(point);
  const { upper, elbow, wrist } = ARM_WIDTHS;
  const set = (part, path) => part.setAttribute("d", path);
  set(parts.upper, bonePath(place([0, 0]), upper, place(pose.elbow), elbow));
  set(parts.fore, bonePath(place(pose.elbow), elbow, place(pose.shellEnd), wrist));
  set(parts.hook, hookPath(place(pose.shellEnd), place(pose.tip), pose.opening ?? 0));
  [[0, 0], pose.elbow].forEach((point, i) => {
    const [cx, cy] = place(point);
    setAttributes(parts.joints[i], { cx: cx.toFixed(1), cy: cy.toFixed(1), r: [14, 12][i] });
  });
  drawCable(parts, pose, place);
}

/* The cable from guide to loop, its line on to the lever's foot, and the housing that comes to it. */
function drawCable(parts, pose, place) {
  if (pose.loop) {
    const along = pose.elbow.map((part) => part * 0.78);
    set2(parts.cable, [pose.guide, pose.loop].map(place));
    set2(parts.beyond, [pose.loop, pose.foot].map(place));
    set2(parts.housing, [[pose.guide[0] - along[0], pose.guide[1] - along[1]], pose.guide].map(place));
    [pose.guide, pose.loop].forEach((point, i) => {
      const [cx, cy] = place(point);
      setAttributes(parts.ends[i], { cx: cx.toFixed(1), cy: cy.toFixed(1), r: 6 });
    });
    return;
  }
  const back = (a, b, share, out) => {
    const [x0, y0] = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return [x0 + (out * (b[1] - a[1])) / size, y0 - (out * (b[0] - a[0])) / size];
  };
  const way = [back([0, 0], pose.elbow, 0.2, -0.05), back([0, 0], pose.elbow, 0.85, -0.046), back(pose.elbow, pose.shellEnd, 0.25, -0.036), pose.shellEnd];
  set2(parts.housing, way.slice(0, 3).map(place));
  set2(parts.cable, way.slice(2).map(place));
}

const set2 = (part, points) => part.setAttribute("d", polyline(points));

/* The device as two bent fingers from the wrist to the tip; opening 0 to 1 parts them. */
function hookPath(wrist, tip, opening) {
  const along = [tip[0] - wrist[0], tip[1] - wrist[1]];
  const finger = (bend, turn) => {
    const [sine, cosine] = [Math.sin(turn), Math.cos(turn)];
    const way = [along[0] * cosine - along[1] * sine, along[0] * sine + along[1] * cosine];
    return polyline([0, 0.2, 0.4, 0.6, 0.8, 1].map((share) => {
      const out = bend * Math.sin(Math.PI * share);
      return [wrist[0] + share * way[0] - out * way[1], wrist[1] + share * way[1] + out * way[0]];
    }));
  };
  return finger(-0.22, 0) + finger(-0.1, opening * 0.7);
}

/* The lever square to the cable, with its size, and the weight beyond the elbow. */
function leverFigure(view, { weight = true } = {}) {
  const parts = {
    arrow: svg("path", { class: "force-arrow" }), head: svg("path", { class: "force-head" }),
    load: svg("text", { class: "arm-load drawing-text" }),
    halo: svg("path", { class: "lever-halo" }), lever: svg("path", { class: "lever" }),
    square: svg("path", { class: "arm-square" }), label: svg("text", { class: "lever-label drawing-text" }),
  };
  const node = svg("g", { class: "force arm-force", "aria-hidden": "true" }, Object.values(parts));
  return { node, draw: (pose, newtons) => drawLever(view, node, parts, pose, weight ? newtons : null) };
}

function drawLever(view, node, parts, pose, newtons) {
  node.classList.toggle("absent", !pose);
  if (!pose) return;
  const { place } = view;
  const loaded = newtons !== null && newtons > 0;
  for (const part of [parts.arrow, parts.head, parts.load]) part.classList.toggle("absent", !loaded);
  if (loaded) {
    const [x, y] = place(pose.centre);
    const long = 40 + 9 * newtons;
    drawArrow(parts, [x, y], [x, y + long]);
    setAttributes(parts.load, { x: (x + 16).toFixed(1), y: (y + long).toFixed(1) });
    setText(parts.load, withUnit(newtons, "N", 1));
  }
  const levered = Boolean(pose.foot);
  for (const part of [parts.halo, parts.lever, parts.square, parts.label]) part.classList.toggle("absent", !levered);
  if (!levered) return;
  const [a, b] = [pose.elbow, pose.foot].map(place);
  for (const part of [parts.halo, parts.lever]) set2(part, [a, b]);
  parts.square.setAttribute("d", squarePath(a, b, place(pose.guide)));
  setAttributes(parts.label, { x: (b[0] + 12).toFixed(1), y: (b[1] - 10).toFixed(1) });
  setText(parts.label, `lever ${withUnit(pose.lever * MM, "mm", 0)}`);
}

/* The mark of the right angle at b between a and c. */
function squarePath(a, b, c) {
  const unit = ([x, y]) => { const size = Math.hypot(x, y); return size > 8 ? [x / size, y / size] : null; };
  const [u, v] = [unit([a[0] - b[0], a[1] - b[1]]), unit([c[0] - b[0], c[1] - b[1]])];
  if (!u || !v) return "";
  const at2 = (s, t) => [b[0] + 6 * (s * u[0] + t * v[0]), b[1] + 6 * (s * u[1] + t * v[1])];
  return polyline([at2(1, 0), at2(1, 1), at2(0, 1)]);
}

/* A bar of the scale in the lower right corner. millimetres: its length. */
function scaleBar(view, millimetres) {
  const y = view.height - 16;
  const right = view.width - 14;
  return svg("g", { class: "room", "aria-hidden": "true" },
    svg("path", { class: "arm-bar", d: `M${right - millimetres} ${y - 7}v14m0 -7H${right}m0 -7v14` }),
    svg("text", { class: "drawing-text", x: right - millimetres - 8, y: y + 5, "text-anchor": "end" }, `${millimetres}\u00a0mm`));
}
