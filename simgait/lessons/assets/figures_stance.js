/* The figures of a lesson on a leg: every setting is simulated here, by the model itself. */

const stanceModels = [];
const stanceRuns = new Map();

/* What was simulated for a setting in its written unit: a run of stanceModel, and the model's data. */
function stanceAt(setting) {
  const { low, step } = data.lesson.control;
  const { varies, limbs } = data.stances;
  const place = Math.round((setting - low) / step);
  if (!stanceRuns.has(place)) {
    const own = varies ? 0 : place;
    stanceModels[own] ??= stanceModel(limbs[own]);
    const model = stanceModels[own];
    const run = model.run(varies ? { ...model.baseline, [varies]: setting } : model.baseline);
    if (run.refused !== null) throw new Error(run.refused);
    stanceRuns.set(place, { run, points: limbs[own].points });
  }
  return stanceRuns.get(place);
}

/* Figures by their key, in the unit of each. */
function lessonFigures(setting) {
  const { run, points } = stanceAt(setting);
  const own = { depth_mm: points.depth * 1000 };
  return Object.fromEntries(data.lesson.figures.map(({ key }) => [key, own[key] ?? run.measures[key]]));
}

/* The instant at which the knee is bent most in the first half of stance, or forced back most in the
   second. */
function tellingInstant(run, early) {
  const moment = run.curves.knee_flexion_moment;
  let found = -1;
  for (let k = 0; k < run.n; k += 1) {
    if (early ? run.percent[k] > 50 : run.percent[k] < 50) continue;
    if (found < 0 || (early ? moment[k] > moment[found] : moment[k] < moment[found])) found = k;
  }
  return found;
}

/* Joints, sole, pressure point and force of a run at an instant. */
function poseOf(run, k) {
  const sole = Array.from({ length: run.elements }, (_, e) => [run.sole.x[k * run.elements + e], run.sole.y[k * run.elements + e]]);
  return {
    percent: run.percent[k],
    points: Object.fromEntries(Object.entries(run.points).map(([name, { x, y }]) => [name, [x[k], y[k]]])),
    sole, pressure: run.pressure_x[k],
    force: [run.curves.force_forward[k], run.curves.force_up[k]],
  };
}
