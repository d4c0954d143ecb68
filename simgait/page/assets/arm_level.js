/* The arm held straight out and level: its weights, its reach, and the other arm beside it. */

/* Returns {node, draw(run, heldRun)}. */
function levelPicture(model) {
  const { given } = model;
  const longest = given.arm.upper_arm + given.arm.tip + model.ranges.forearm_change_mm[1] / MM;
  const view = roomView({ left: -0.09, right: Math.max(longest, given.other_side ?? 0) + 0.07, bottom: -0.2, top: 0.15 });
  const figures = { held: levelFigure(view, "held"), now: levelFigure(view, "now") };
  const drawing = svg("svg", { class: "drawing arm-level", viewBox: `0 0 ${view.width.toFixed(0)} ${view.height.toFixed(0)}`, role: "img",
    "aria-label": "The arm held straight out and level, drawn to scale; the numbers stand in the table of lengths" },
  figures.held.node, figures.now.node, markFigure(view, given.other_side, "other arm's thumb"), scaleBar(view, 100));
  const told = el("p", { class: "small" });
  const node = el("div", { class: "arm-level-wrap" }, el("h3", {}, "Held straight out"), drawing, told);
  keepLetters(drawing, view, (unit) => { view.unit = unit; }, 125);
  return {
    node,
    draw: (run, held) => {
      figures.held.draw(given, held?.arm ?? null);
      figures.now.draw(given, run.arm);
      setText(told, levelWords(given, run));
    },
  };
}

function levelFigure(view, look) {
  const path = (name) => svg("path", { class: name });
  const parts = { upper: path("limb-flesh"), fore: path("limb-cup"), hook: path("arm-hook") };
  const joints = [0, 1].map(() => svg("circle", { class: "limb-joint", r: 12 }));
  const arrows = look === "now" ? [0, 1, 2].map(() => ({ arrow: svg("path", { class: "force-arrow" }), head: svg("path", { class: "force-head" }), node: svg("g") })) : [];
  for (const each of arrows) each.node.append(each.arrow, each.head);
  const node = svg("g", { class: `limb limb-${look} arm arm-${look}`, "aria-hidden": "true" }, Object.values(parts), joints);
  const whole = svg("g", {}, node, svg("g", { class: "force", "aria-hidden": "true" }, arrows.map((each) => each.node)));
  return { node: whole, draw: (given, arm) => drawLevel(view, whole, { ...parts, joints, arrows }, given, arm) };
}

function drawLevel(view, whole, parts, given, arm) {
  whole.classList.toggle("absent", arm === null);
  if (arm === null) return;
  const at = (along) => view.place([along, 0]);
  const { upper, elbow, wrist } = ARM_WIDTHS;
  const end = arm.upper_arm + arm.forearm;
  parts.upper.setAttribute("d", bonePath(at(0), upper, at(arm.upper_arm), elbow));
  parts.fore.setAttribute("d", bonePath(at(arm.upper_arm), elbow, at(end), wrist));
  parts.hook.setAttribute("d", hookPath(at(end), at(arm.upper_arm + arm.tip), 0));
  [0, arm.upper_arm].forEach((along, i) => setAttributes(parts.joints[i], { cx: at(along)[0].toFixed(1), cy: at(along)[1].toFixed(1) }));
  const weights = [
    [arm.upper_arm_mass, arm.upper_arm_centre],
    [arm.forearm_mass, arm.upper_arm + arm.forearm_centre],
    [arm.device_mass + arm.held_mass, arm.upper_arm + arm.device_centre],
  ];
  parts.arrows.forEach(({ node, ...arrow }, i) => {
    const [mass, along] = weights[i];
    node.classList.toggle("absent", !(mass > 0));
    const [x, y] = at(along);
    if (mass > 0) drawArrow(arrow, [x, y], [x, y + 45 + 9 * mass * given.gravity]);
  });
}

/* An upright mark at a distance from the shoulder, with its words. */
function markFigure(view, along, words) {
  if (along === null) return null;
  const [x] = view.place([along, 0]);
  return svg("g", { "aria-hidden": "true" },
    svg("line", { class: "arm-mark", x1: x, x2: x, y1: 34, y2: view.height - 60 }),
    svg("text", { class: "drawing-text", x: x + 8, y: 24, "text-anchor": "end" }, words));
}

function levelWords({ harness }, { length }) {
  const capacity = harness.max_shoulder_moment;
  const moment = `${withUnit(length.shoulder_moment_nm, "N m", 2)} at the shoulder`;
  const held = capacity === null ? "; what this shoulder can hold was not measured"
    : length.within_capacity ? `, within the ${withUnit(capacity, "N m", 2)} that this shoulder can hold`
      : `, more than the ${withUnit(capacity, "N m", 2)} that this shoulder can hold`;
  const reaches = [["mouth_reached", "mouth"], ["midline_reached", "midline"]]
    .map(([name, words]) => `${length[name] ? "reaches" : "does not reach"} the ${words}`).join(", ");
  return `${moment}${held}. It ${reaches} (proportions of the body partly assumed). Arrows: weights of upper arm, forearm, device with load.`;
}
