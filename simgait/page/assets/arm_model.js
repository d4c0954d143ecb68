/* The model of an arm in the page: a setting in written units goes in, named measures come out. */

const MM = 1000;
const DEG = 180 / Math.PI;

/* The model of the page's data (simgait/page/arm_data.py). run(setting) gives what Python's
   `simgait arm` gives for the same arm; search(setting) judges all places of the loop. */
function armModel(given) {
  return {
    given,
    ranges: given.ranges,
    baseline: given.baseline,
    lifts: given.level !== "forearm",
    run: (setting) => runArm(given, setting),
    search: (setting, loops = given.loops) => searchLoops(given, setting, loops),
  };
}

/* The arm with its forearm changed and something held [SI]. */
function changedArm(given, { forearm_change_mm: change, held_mass_kg: held }) {
  const { arm } = given;
  const [length, by] = [arm.forearm, change / MM];
  return {
    ...arm,
    forearm: length + by,
    forearm_mass: formulas.with_length(arm.forearm_mass, length, by),
    forearm_centre: formulas.with_length(arm.forearm_centre, length, by),
    device_centre: formulas.with_end(arm.device_centre, by),
    tip: arm.tip + by,
    held_mass: held,
  };
}

/* Why a setting cannot be, in words; null if it can. */
function whyNot(given, arm, setting) {
  for (const [name, [low, high]] of Object.entries(given.ranges)) {
    const value = setting[name];
    if (!(Number.isFinite(value) && value >= low - 1e-9 && value <= high + 1e-9)) return `${name} may be ${low} to ${high}.`;
  }
  if (given.level !== "forearm" && setting.loop_mm / MM > arm.forearm + 1e-9) {
    return `The loop at ${setting.loop_mm} mm is beyond the end of the forearm at ${Math.round(arm.forearm * MM)} mm.`;
  }
  return null;
}

function runArm(given, setting) {
  const arm = changedArm(given, setting);
  const refused = whyNot(given, arm, setting);
  if (refused !== null) return { setting, refused, arm };
  const lift = given.level === "forearm" ? null : liftOf(given, arm, setting.guide_mm / MM, setting.loop_mm / MM);
  return { setting, refused, arm, lift, length: lengthMeasures(given, arm), pose: (flexion) => armPose(given, arm, setting, flexion) };
}

/* One lift: curves, margins, ledger, and the measures by their names. */
function liftOf(given, arm, guide, loop) {
  const setting = liftSetting(given, arm, guide, loop);
  const curves = liftCurves(setting);
  const fit = judged(given, setting, curves, 1);
  const easy = judged(given, setting, curves, given.harness.fatigue_free_share);
  const ledger = liftLedger(setting, curves);
  const { most, place } = greatest(curves.pull);
  const able = Number.isFinite(most);
  const feasible = leastMargin(fit.margins) >= -given.limits.rounding;
  const rightAngle = Math.PI / 2;
  const axis = able ? null : turningFlexion(setting);
  return {
    curves,
    ledger,
    setting,
    margins: fit.margins,
    easyMargins: easy.margins,
    measures: {
      loop_mm: loop * MM,
      guide_mm: guide * MM,
      peak_pull_n: most,
      peak_pull_at_deg: able ? curves.flexion[place] * DEG : NaN,
      pull_at_90_n: able ? pullAt(setting, rightAngle) : NaN,
      lever_at_90_mm: leverAt(setting, rightAngle) * MM,
      excursion_mm: able ? curves.drawn[curves.drawn.length - 1] * MM : NaN,
      device_excursion_left_mm: able ? fit.left * MM : NaN,
      opening_left_share: able ? fit.opening : NaN,
      work_j: ledger.cable,
      ledger_error_percent: ledger.error,
      feasible,
      fatigue_free: feasible && easy.margins.pull >= 0,
      opens_while_lifting: fit.works,
      crosses_axis_at_deg: axis === null ? NaN : axis * DEG,
    },
  };
}

/* Places of the loop judged one by one, and the one that Python recommends among them. */
function searchLoops(given, setting, loops) {
  const arm = changedArm(given, setting);
  const rows = loops.filter((loop) => loop <= arm.forearm + 1e-9).map((loop) => {
    const { measures, margins, easyMargins } = liftOf(given, arm, setting.guide_mm / MM, loop);
    return { loop_mm: measures.loop_mm, measures, margins, balance: leastMargin(margins, false), easyBalance: leastMargin(easyMargins, false) };
  });
  return { rows, best: bestRow(rows) };
}

/* The feasible row whose smallest margin is largest; those that do not work the device while lifting
   come first, then those that do not tire. */
function bestRow(rows) {
  let chosen = rows.filter((row) => row.measures.feasible);
  if (chosen.length === 0) return null;
  const calm = chosen.filter((row) => !row.measures.opens_while_lifting);
  if (calm.length > 0) chosen = calm;
  const tireless = chosen.filter((row) => row.measures.fatigue_free);
  const margin = tireless.length > 0 ? "easyBalance" : "balance";
  if (tireless.length > 0) chosen = tireless;
  return chosen.reduce((best, row) => (row[margin] > best[margin] ? row : best));
}

/* Where the points of the arm are at a flexion [rad]: forward and up from the shoulder's axis [m]. */
function armPose(given, arm, { loop_mm: loop, guide_mm: guide }, flexion) {
  const { cable } = given;
  const lean = arm.shoulder_flexion;
  const fore = (along, front = 0) => formulas.forearm_place(lean, flexion, arm.upper_arm, along, front);
  const pose = { elbow: fore(0), shellEnd: fore(arm.forearm), tip: fore(arm.tip), device: fore(arm.device_centre),
    centre: fore(formulas.common_centre(arm.forearm_mass, arm.forearm_centre, arm.device_mass + arm.held_mass, arm.device_centre)) };
  if (given.level === "forearm") return pose;
  pose.loop = fore(loop / MM, cable.loop_offset);
  pose.guide = formulas.guide_place(lean, arm.upper_arm, guide / MM, cable.guide_offset);
  pose.foot = formulas.square_foot(...pose.elbow, ...pose.loop, ...pose.guide);
  pose.lever = formulas.lever_arm(flexion, guide / MM, cable.guide_offset, loop / MM, cable.loop_offset);
  return pose;
}
