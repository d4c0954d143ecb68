/* The drawings of an arm: whole, enlarged about the elbow, and held straight out. */

function armPictures(state, acts) {
  const { model } = state;
  const whole = armPicture(state, armView(model), acts, {
    names: model.lifts ? ["loop", "length"] : ["length"], words: "The arm, drawn to scale; its handles set loop and length", bar: 100 });
  const near = model.lifts ? armPicture(state, elbowView(model), acts, {
    names: ["guide", "loop"], words: "The elbow, enlarged; its handles set guide and loop", bar: 50, close: true }) : null;
  const note = el("p", { class: "drawing-note" });
  const told = el("p", { class: "drawing-told", "aria-live": "off" });
  const node = el("div", { class: "drawing-wrap arm-drawings show-whole" },
    el("div", { class: "arm-whole" }, whole.drawing, note),
    near && el("div", { class: "arm-near" }, el("p", { class: "arm-near-title small" }, "At the elbow, enlarged"), near.drawing));
  const chooser = near && choice("Show", [["whole", "whole arm"], ["near", "elbow, enlarged"]], "whole", (which) => {
    node.classList.toggle("show-whole", which === "whole");
    node.classList.toggle("show-near", which === "near");
  });
  if (chooser) node.prepend(el("div", { class: "arm-chooser screen-only" }, chooser.node));
  return {
    node,
    told,
    key: armKey(model),
    draw: () => {
      whole.draw(state);
      near?.draw(state);
      setText(told, instantWords(state));
    },
    view: () => {
      for (const one of [whole, near]) one?.drawing.classList.toggle("stale", state.run.refused !== null);
      setText(note, state.run.refused === null ? "" : "Not this setting: the last one that can be.");
    },
  };
}

function armPicture(state, view, acts, { names, words, bar, close = false }) {
  const drawing = svg("svg", { class: "drawing", viewBox: `0 0 ${view.width.toFixed(0)} ${view.height.toFixed(0)}`, role: "group", "aria-label": words });
  const held = armFigure(view, "held");
  const now = armFigure(view, "now");
  const strip = fittingStrip(view);
  const lever = leverFigure(view, { weight: !close });
  let pose = null;
  const handles = armHandles(drawing, view, state.model, names, {
    value: (name) => state.setting[name], move: acts.change, done: acts.rest, pose: () => pose });
  drawing.append(held.node, now.node, strip.node, lever.node, scaleBar(view, bar), handles.node);
  const draw = ({ good, drawnHeld, fitting, flexion, opening }) => {
    pose = good && { ...good.pose(flexion), opening };
    now.draw(pose);
    held.draw(drawnHeld ? { ...drawnHeld.pose(flexion), opening: 0 } : null);
    strip.draw(pose, fitting?.rows ?? []);
    lever.draw(pose, good ? hangingWeight(state.model.given, good.arm) : null);
    handles.show(pose);
  };
  keepLetters(drawing, view, (unit) => { view.unit = unit; if (pose) draw(state); }, close ? 190 : 450);
  return { drawing, draw };
}

/* Weight of what hangs on the elbow [N]. */
function hangingWeight({ gravity }, arm) {
  return formulas.whole_load(gravity, 0, arm.forearm_mass, arm.device_mass, arm.held_mass);
}

/* The instant that is drawn, in words. */
function instantWords({ model, good, flexion, percent }) {
  if (!good) return "";
  if (!model.lifts) {
    const { device } = model.given;
    if (!device) return "The device was not measured.";
    const last = device.travel_mm.length - 1;
    const i = Math.round((percent / 100) * last);
    return `Device ${percent.toFixed(0)} %: cable drawn ${withUnit(device.travel_mm[i], "mm", 0)}, pull at the harness ${withUnit(device.pull_n[i], "N", 0)}, letting back ${withUnit(device.return_pull_n[i], "N", 0)}.`;
  }
  const { curves } = good.lift;
  const pull = valueAt(curves.flexion, curves.pull, flexion);
  const drawn = valueAt(curves.flexion, curves.drawn, flexion) * MM;
  const can = valueAt(curves.flexion, curves.capacity, flexion);
  const at = `Elbow at ${(flexion * DEG).toFixed(0)}\u00b0:`;
  if (!Number.isFinite(pull)) return `${at} the cable passes the elbow's axis in this range; no pull can lift through it.`;
  return `${at} pull ${withUnit(pull, "N", 0)} of the ${withUnit(can, "N", 0)} that this wearer can pull, cable drawn ${withUnit(drawn, "mm", 0)}.`;
}

function armKey(model) {
  const lifts = "Warm line: cable; dashed, its housing and the line to the lever. Bar: the cable's lever about the elbow, square to the cable. ";
  const strip = "Beside the forearm: where the loop keeps within pull and travel (broad), and lifting does not tire (broad and dark); thin: beyond a limit. ";
  return el("div", { class: "picture-key small" },
    el("p", { class: "quiet" }, model.lifts ? lifts : "Warm line: cable to the device; dashed, its housing. ", model.lifts && strip,
      "Arrow: weight beyond the elbow. Pale arm, dashed: the held comparison. Widths are drawn, not measured."),
    el("p", { class: "quiet screen-only" }, "Drag the round handles, or use arrow keys on them (with shift: larger steps)."));
}
