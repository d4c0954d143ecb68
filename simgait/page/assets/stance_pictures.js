/* The drawing of the page: the limb now, the held limb, the force, the handles, and the key. */

function limbPictures(state, view, acts) {
  const drawing = svg("svg", { class: "drawing", viewBox: `0 0 ${view.width.toFixed(0)} ${view.height.toFixed(0)}`, role: "group", "aria-label": "The limb, drawn to scale; its handles set the alignment" });
  const held = limbFigure(view, "held");
  const now = limbFigure(view, "now");
  const force = forceFigure(view);
  const handles = limbHandles(drawing, view, state.model.ranges, {
    value: (name) => state.setting[name], move: acts.change, done: acts.rest, pose: () => state.pose });
  const note = el("p", { class: "drawing-note" });
  const told = el("p", { class: "drawing-told small walking-only", "aria-live": "off" });
  drawing.append(roomFigure(view), held.node, now.node, force.node, handles.node);
  const standing = standingPictures(state, acts);
  const walking = el("div", { class: "drawing-walking walking-only" }, drawing, note);
  const node = el("div", { class: "drawing-wrap" }, walking, standing?.node);
  keepLetters(drawing, view);
  return {
    node,
    told: [told, standing?.told],
    chooser: standing?.chooser,
    results: standing?.results,
    key: pictureKey(),
    draw: () => drawInstant(state, { held, now, force, handles, told }),
    view: () => {
      drawing.classList.toggle("stale", Boolean(state.run.refused));
      setText(note, drawingNote(state));
      standing?.show();
    },
  };
}

/* Draw the instant at which the state stands. */
function drawInstant(state, { held, now, force, handles, told }) {
  const { good, drawnHeld, percent } = state;
  state.pose = good && poseAt(good, percent);
  now.draw(state.pose ?? null);
  held.draw(drawnHeld ? poseAt(drawnHeld, percent) : null);
  const lever = force.draw(state.pose ?? null, state.page.body_weight);
  handles.show(state.pose);
  setText(told, leverWords(state.pose, lever));
}

function leverWords(pose, lever) {
  if (!pose) return "";
  if (!lever) return `${(pose.time * 1000).toFixed(0)} ms after touch-down: the foot carries next to nothing.`;
  const size = Math.hypot(...pose.force);
  const does = lever.length > 0 ? "behind the knee: it tends to bend it" : "ahead of the knee: it tends to straighten it";
  return `${(pose.time * 1000).toFixed(0)} ms after touch-down: ${size.toFixed(0)} N from the floor, its line ` +
    `${Math.abs(lever.length * 1000).toFixed(0)} mm ${does}.`;
}

function drawingNote({ run }) {
  if (run.refused) return "Not this setting: the last one that can be simulated.";
  if (run.ending === "toe_off") return "";
  return `Ended otherwise than by toe-off: ${run.ending.replaceAll("_", " ")}.`;
}

function pictureKey() {
  const wide = window.matchMedia("(min-width: 44rem)").matches;
  return el("details", { class: "picture-key small", open: wide },
    el("summary", {}, "How to read and move the drawing"),
    el("p", { class: "quiet screen-only" },
      "Drag the three round handles, or use arrow keys on them (with shift: larger steps). ",
      "The limb moves a quarter as far as the pointer, so that single millimetres can be set."),
    el("p", { class: "quiet" },
      "Arrow: force of the floor on the foot, from the pressure point; one body weight is 450 mm long. ",
      "Bar with round ends: the knee's lever, square to the force's line. Thick sole: pressed on the floor. ",
      "Dashed limb: the held comparison, at the same share of its own stance. Widths are drawn, not measured."));
}
