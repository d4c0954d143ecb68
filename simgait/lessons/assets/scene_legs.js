/* Legs: the limb at one instant of its step, with the ground's force and the lever it has. */

/* A setting [SI] in its written unit, on the control's grid. */
function onWritten(setting) {
  const { si, low, high, step } = data.lesson.control;
  return onGrid(setting / si, low, high, step);
}

/* The pose that a scene shows for a setting [SI]. */
function poseAt(setting, early) {
  const { run } = stanceAt(onWritten(setting));
  return poseOf(run, tellingInstant(run, early));
}

/* A pose seen from its ankle, so that limbs of different steps can be laid over each other. */
function seenFrom(pose, [x, y]) {
  const move = ([px, py]) => [px - x, py - y];
  return {
    ...pose, floor: -y, pressure: pose.pressure - x,
    points: Object.fromEntries(Object.entries(pose.points).map(([name, spot]) => [name, move(spot)])),
    sole: pose.sole.map(move),
  };
}

/* When in the step, in two lines, so that they stay beside the thigh on a phone too. */
function instantWords(stage, place, { percent }) {
  stage.words(place, `at ${shownNumber(percent, 0)}% of the`, "quiet", "end");
  stage.words(place, "step on this foot", "quiet", "end", -1.2);
}

function limbLines(stage, { points, sole }, pale) {
  const { hip, knee, limb_end: end, socket_end: socketEnd, brim, ankle } = points;
  stage.shape(barShape(hip, knee, 0.11), pale ? "ghost" : "paper");
  stage.shape(barShape(knee, end, 0.075), pale ? "ghost" : "paper");
  if (!pale) stage.shape(barShape(brim, socketEnd, 0.1), "soft");
  stage.line([socketEnd, ankle], pale ? "ghost" : "thick");
  stage.shape([ankle, ...sole], pale ? "ghost" : "solid");
  stage.disc(knee, 0.012, pale ? "ghost" : "dark");
}

/* The ground's force through its pressure point, and the knee's lever square to it. */
function groundForce(stage, pose) {
  const [forward, up] = pose.force;
  const size = Math.hypot(forward, up);
  const way = [forward / size, up / size];
  const along = (far) => [pose.pressure + way[0] * far, pose.floor + way[1] * far];
  const [x, y] = pose.points.knee;
  const foot = along((x - pose.pressure) * way[0] + (y - pose.floor) * way[1]);
  stage.line([along(0), along(0.8)], "limit");
  stage.force(along((size * 0.28) / stage.scale), way, size, 0.28, "load");
  stage.line([pose.points.knee, foot], "effort");
  stage.disc(foot, 0.007, "dark");
}

/* A scene of the whole limb; `grip` gives the handle's place on a pose, `change` the setting [SI]. */
function legScene(early, key, grip, change) {
  const view = [-0.62, -0.1, 0.62, 0.86];
  const posed = (setting) => { const pose = poseAt(setting, early); return seenFrom(pose, [pose.points.knee[0], 0]); };
  return {
    view,
    at: (setting) => grip(posed(setting)),
    setting: change,
    draw(stage, setting, now, shown, given, told) {
      const first = onWritten(setting) === data.lesson.control.start;
      const pose = posed(setting);
      stage.line([[view[0], 0], [view[2], 0]], "ground");
      if (!first) limbLines(stage, posed(data.lesson.control.start * data.lesson.control.si), true);
      limbLines(stage, pose, false);
      instantWords(stage, [view[2] - 0.01, 0.8], pose);
      const { knee } = pose.points;
      stage.words([knee[0] + (early ? 0.08 : -0.08), knee[1]], "knee", "", early ? "start" : "end", 0.8);
      if (shown) {
        groundForce(stage, pose);
        const side = early ? -0.09 : 0.09;
        stage.words([knee[0] + side, knee[1] + 0.02], told(key, now), "effort", early ? "end" : "start");
        stage.words([knee[0] + side, knee[1] + 0.02], early ? "bend the knee" : "force it back", "effort", early ? "end" : "start", -1.2);
        stage.words([pose.pressure + 0.03, 0.03], `${shownNumber(Math.hypot(...pose.force), 0)} N`, "load", "start");
      }
      stage.bars(0.1, "10 cm", shown ? 500 : 0, 0.28);
    },
  };
}

SCENES["heel-lever"] = legScene(true, "knee_flexion_moment_peak_nm",
  ({ points }) => [points.ankle[0], points.ankle[1]],
  ([x]) => nearestSetting(x, (setting) => SCENES["heel-lever"].at(setting)[0]));

SCENES["toe-lever"] = legScene(false, "knee_extension_moment_peak_nm",
  ({ sole }) => sole[sole.length - 1],
  ([x]) => nearestSetting(x, (setting) => SCENES["toe-lever"].at(setting)[0]));

SCENES["short-residual-limb"] = {
  view: [-0.36, -0.3, 0.36, 0.13],
  at: (setting) => limbSeen(setting).points.limb_end,
  setting: ([, y]) => nearestSetting(y, (setting) => limbSeen(setting).points.limb_end[1]),
  draw(stage, setting, now, shown, given, told) {
    const first = onWritten(setting) === data.lesson.control.start;
    const pose = limbSeen(setting);
    const { knee, hip, brim, limb_end: end, socket_end: socketEnd, ankle } = pose.points;
    if (!first) stage.shape(barShape(knee, limbSeen(data.lesson.control.start * data.lesson.control.si).points.limb_end, 0.08), "ghost");
    stage.shape(barShape(hip, knee, 0.11), "paper");
    stage.line([socketEnd, ankle], "thick");
    stage.shape(barShape(brim, socketEnd, 0.1), "soft");
    stage.shape(barShape(knee, end, 0.08), "solid");
    stage.disc(knee, 0.01, "dark");
    stage.words([knee[0] - 0.08, knee[1]], "knee", "", "end");
    stage.words([socketEnd[0] + 0.07, socketEnd[1] - 0.03], "socket", "", "start");
    instantWords(stage, [0.35, 0.1], pose);
    if (shown) coupleForces(stage, brim, end, now, told);
    stage.bars(0.05, "5 cm", shown ? 200 : 0, 0.3);
  },
};

/* The limb late in the step, seen from its knee. */
function limbSeen(setting) {
  const pose = poseAt(setting, false);
  return seenFrom(pose, pose.points.knee);
}

/* Two equal forces of the socket on the limb, square to it, and the lever between them. The late
   moment forces the limb's end ahead: the brim presses back on its front, the end ahead on its back. */
function coupleForces(stage, brim, end, now, told) {
  const size = Math.hypot(brim[0] - end[0], brim[1] - end[1]);
  const across = [(brim[1] - end[1]) / size, -(brim[0] - end[0]) / size];
  const beside = ([x, y], far) => [x + across[0] * far, y + across[1] * far];
  const force = now.socket_couple_force_n;
  stage.force(beside(brim, 0.045), across.map((each) => -each), force, 0.3, "effort");
  stage.force(beside(end, -0.045), across, force, 0.3, "effort");
  stage.words(beside(brim, 0.06 + (force * 0.3) / stage.scale), told("socket_couple_force_n", now), "effort", "start", 0.8);
  stage.words(beside(end, -0.06 - (force * 0.3) / stage.scale), told("socket_couple_force_n", now), "effort", "end");
  stage.span(beside(brim, 0.1), beside(end, 0.1), `lever ${told("depth_mm", now)}`, "load", "end");
}

/* The curve through the whole step, now and at the start. */
function legCurve(name, title, above, below) {
  const curveOf = (setting, words, held) => {
    const { run } = stanceAt(setting);
    return { name: words, x: run.percent, y: run.curves[name], held };
  };
  return {
    asked: { title, unit: "N m", decimals: 1, above, below, xTitle: "per cent of the step on this foot", xUnit: "%", xDecimals: 0 },
    curves: (first, now) => [curveOf(first, "at the start", true), curveOf(now, "now", false)],
  };
}

const KNEE_CURVE = legCurve("knee_flexion_moment", "Moment of the ground about the knee", "bends the knee", "forces it back");
SCENES["heel-lever"].curve = KNEE_CURVE;
SCENES["toe-lever"].curve = KNEE_CURVE;
SCENES["short-residual-limb"].curve = legCurve("socket_flexion_moment", "Moment in the socket", "as if to bend the knee", "as if to force it back");

/* The setting [SI] of the control whose place comes nearest to one. */
function nearestSetting(place, placeOf) {
  const { low, high, step, si } = data.lesson.control;
  let best = low;
  for (let value = low; value <= high + 1e-9; value += step) {
    if (Math.abs(placeOf(value * si) - place) < Math.abs(placeOf(best * si) - place)) best = value;
  }
  return best * si;
}
