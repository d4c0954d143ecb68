/* Legs: the limb at one instant of its step, with the ground's force and the lever it has. */

const LEG_VIEW = [-0.55, -0.12, 0.75, 0.98];

/* The force's line meets the knee's lever here: the foot of the perpendicular from the knee. */
function kneeLever({ points, pressure, force }) {
  const [x, y] = points.knee;
  const size = Math.hypot(...force);
  const [ux, uy] = [force[0] / size, force[1] / size];
  const along = (x - pressure) * ux + y * uy;
  return [pressure + along * ux, along * uy];
}

/* The instant's words, the ground, and the pale limb of the start. */
function legGround(stage, pose, words) {
  stage.line([[stage.view[0], 0], [stage.view[2], 0]], "ground");
  stage.words([stage.view[2] - 0.02, stage.view[3] - 0.05], `${shownNumber(pose.percent, 0)} % of stance`, "quiet", "end");
  if (words) stage.words([stage.view[2] - 0.02, stage.view[3] - 0.1], words, "quiet", "end");
}

function limbLines(stage, { points, sole }, look) {
  const { hip, knee, limb_end: end, socket_end: socketEnd, brim, ankle } = points;
  const pale = look === "ghost";
  stage.shape(barShape(hip, knee, 0.1), pale ? "ghost" : "paper");
  stage.shape(barShape(knee, end, 0.075), pale ? "ghost" : "paper");
  if (!pale) stage.shape(barShape(brim, socketEnd, 0.1), "soft");
  stage.line([socketEnd, ankle], pale ? "ghost" : "thick");
  stage.shape([ankle, ...sole], pale ? "ghost" : "solid");
  stage.disc(knee, 0.014, pale ? "ghost" : "dark");
  if (!pale) stage.disc(ankle, 0.01, "paper");
}

function groundForce(stage, pose, told, now, key, look) {
  const [forward, up] = pose.force;
  const size = Math.hypot(forward, up);
  const foot = kneeLever(pose);
  const line = (share) => [pose.pressure + (forward / size) * share, (up / size) * share];
  stage.line([[pose.pressure, 0], line(0.95)], "limit");
  stage.force(line((size * 0.32) / stage.scale), [forward, up], size, 0.32, "load");
  stage.line([pose.points.knee, foot], look);
  stage.disc(foot, 0.008, look);
}

/* A scene of the whole limb. `at` gives the handle's place on a pose. */
function legScene(at, change, key, words) {
  return {
    view: LEG_VIEW,
    at: (setting) => at(stanceAt(onWritten(setting)).pose, setting),
    setting: change,
    draw(stage, setting, now, shown, given, told) {
      const { pose } = stanceAt(onWritten(setting));
      const first = stanceAt(data.lesson.control.start).pose;
      legGround(stage, pose, words);
      if (setting !== data.lesson.control.start * data.lesson.control.si) limbLines(stage, first, "ghost");
      limbLines(stage, pose, "ink");
      const { knee } = pose.points;
      if (shown) {
        groundForce(stage, pose, told, now, key, "effort");
        stage.words([knee[0] - 0.1, knee[1] + 0.03], told(key, now), "effort", "end");
        stage.words([knee[0] - 0.1, knee[1] - 0.03], key.includes("extension") ? "force it back" : "bend the knee", "effort", "end");
      }
      stage.bars(0.1, "10 cm", shown ? 500 : 0, 0.32);
    },
  };
}

/* A setting [SI] in its written unit, on the control's grid. */
function onWritten(setting) {
  const { si, low, high, step } = data.lesson.control;
  return onGrid(setting / si, low, high, step);
}

SCENES["heel-lever"] = legScene(
  ({ points }) => [points.ankle[0], points.ankle[1] - 0.03],
  ([x]) => x - stanceAt(0).pose.points.ankle[0],
  "knee_flexion_moment_peak_nm", "where the knee is bent most");

SCENES["toe-lever"] = legScene(
  ({ sole }) => sole[sole.length - 1],
  ([x], given) => x,
  "knee_extension_moment_peak_nm", "where it is forced back most");
