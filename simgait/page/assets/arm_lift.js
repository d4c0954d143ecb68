/* Bending the elbow slowly with the cable, and whether the wearer can: loops about the formulas. */

/* The wearer's greatest pull over the cable drawn; level if one pull was measured. */
function greatestPull({ harness }) {
  const measured = harness.excursions.length > 0;
  return monotoneCurve(measured ? harness.excursions : [0], measured ? harness.pulls : [harness.max_pull]);
}

/* All that a lift depends on, in SI. given: the page's data; arm: the arm as it is now. */
function liftSetting(given, arm, guide, loop) {
  const { cable, limits } = given;
  return {
    flexion: spread(arm.flexion_from, arm.flexion_to, limits.flexions),
    place: [guide, cable.guide_offset, loop, cable.loop_offset],
    shoulder_flexion: arm.shoulder_flexion,
    weight: formulas.elbow_moment(given.gravity, arm.forearm_mass, arm.forearm_centre, arm.device_mass + arm.held_mass, arm.device_centre),
    assist: monotoneCurve(cable.assist_at, cable.assist),
    capacity: greatestPull(given),
    through: cable.share_through,
    pulley: cable.pulley,
    limits,
  };
}

/* Moment that the cable has to give at a flexion [N m]. */
function momentAt(setting, flexion) {
  return formulas.moment_to_give(setting.weight, setting.shoulder_flexion + flexion, setting.assist.at(flexion));
}

function leverAt(setting, flexion) {
  return formulas.lever_arm(flexion, ...setting.place);
}

/* Lever [m], moment [N m] and tension [N] through the range; the tension is NaN all over where the
   cable passes the elbow's axis, and the ratio just inside where both begin at nothing. */
function tensions(setting) {
  const { flexion, limits } = setting;
  const lever = flexion.map((angle) => leverAt(setting, angle));
  const moment = flexion.map((angle) => momentAt(setting, angle));
  const [levers, moments] = [lever.slice(), moment.slice()];
  const last = flexion.length - 1;
  for (const [end, inward] of [[0, limits.nudge], [last, -limits.nudge]]) {
    if (Math.abs(lever[end]) < limits.least_lever && Math.abs(moment[end]) < limits.no_moment) {
      levers[end] = leverAt(setting, flexion[end] + inward);
      moments[end] = momentAt(setting, flexion[end] + inward);
    }
  }
  const stuck = levers.some((each, i) => each < limits.no_lever && moments[i] > limits.no_moment);
  const passes = stuck || levers.subarray(1, last).some((each) => each < limits.least_lever);
  const tension = moments.map((each, i) => (passes ? NaN : formulas.tension_for(each, levers[i])));
  return { lever, moment, tension };
}

/* The curves of one lift, as Python's LiftCurves. */
function liftCurves(setting) {
  const { flexion, through, pulley, place } = setting;
  const found = tensions(setting);
  const start = formulas.cable_length(flexion[0], ...place);
  const drawn = flexion.map((angle) => formulas.cable_drawn(start, formulas.cable_length(angle, ...place), pulley));
  return {
    ...found,
    flexion,
    drawn,
    pull: found.tension.map((each) => formulas.pull_for(each, through, pulley)),
    lowering: found.tension.map((each) => formulas.pull_that_lets_down(each, through, pulley)),
    capacity: drawn.map((each) => setting.capacity.at(each)),
  };
}

/* Pull at the harness at one flexion of the range [N]; NaN outside it or without a lever. */
function pullAt(setting, flexion) {
  const { flexion: range, through, pulley, limits } = setting;
  const lever = leverAt(setting, flexion);
  if (flexion < range[0] || flexion > range[range.length - 1] || !(lever > limits.least_lever)) return NaN;
  return formulas.pull_for(formulas.tension_for(momentAt(setting, flexion), lever), through, pulley);
}

/* Margins by limit against a share of the wearer's pull, as Python's Judgement. */
function judged(given, setting, curves, share) {
  const { cable, harness } = given;
  const asked = greatest(curves.pull.map((each, i) => formulas.share_asked(each, share * curves.capacity[i]))).most;
  const limit = harness.max_excursion;
  const lifted = curves.drawn[curves.drawn.length - 1];
  const left = limit - lifted;
  const margins = {
    pull: orNever(formulas.pull_margin(asked)),
    excursion: orNever(formulas.excursion_margin(left, 0, limit)),
    axis: Number.isNaN(asked) ? -Infinity : Infinity,
  };
  let opening = NaN;
  if (cable.device_excursion !== null) {
    const wanted = formulas.travel_wanted(harness.opening_share, cable.device_excursion, setting.pulley);
    margins.device_excursion = orNever(formulas.excursion_margin(left, wanted, limit));
    if (cable.device_excursion > 0) opening = formulas.opening_for(left, cable.device_excursion, setting.pulley);
    if (cable.device_pull !== null) {
      const there = share * setting.capacity.at(lifted + wanted);
      const pull = formulas.pull_for(cable.device_pull, setting.through, setting.pulley);
      margins.device_pull = orNever(formulas.pull_margin(formulas.share_asked(pull, there)));
    }
  }
  const strongest = Math.max(...curves.tension.map((each) => (Number.isNaN(each) ? 0 : each)));
  const works = cable.device_start_pull !== null && strongest > cable.device_start_pull;
  return { margins, left, opening, works };
}

function orNever(margin) {
  return Number.isNaN(margin) ? -Infinity : margin;
}

/* The smallest margin, with or without that of the pull which works the device. */
function leastMargin(margins, withDevicePull = true) {
  return Math.min(...Object.entries(margins).filter(([name]) => withDevicePull || name !== "device_pull").map(([, margin]) => margin));
}

/* Where the work of a lift goes [J]. */
function liftLedger(setting, curves) {
  const { flexion } = curves;
  const [start, end] = [flexion[0], flexion[flexion.length - 1]];
  const cable = trapezoid(curves.pull, curves.drawn);
  const load = formulas.load_gain(setting.weight, setting.shoulder_flexion, start, end);
  const spring = setting.assist.integral(start, end);
  const housing = trapezoid(curves.pull.map((pull) => formulas.lost_in_housing(pull, setting.through)), curves.drawn);
  const surplus = trapezoid(curves.moment.map((moment) => formulas.surplus_moment(moment)), flexion);
  return { cable, load, spring, housing, surplus, error: formulas.ledger_error(cable, load, spring, housing, surplus) };
}

/* Flexion in the range at which the cable passes the elbow's axis [rad], or null. */
function turningFlexion(setting) {
  const { flexion } = setting;
  const ends = formulas.working_flexions(...setting.place);
  return ends.find((angle) => flexion[0] <= angle && angle <= flexion[flexion.length - 1]) ?? null;
}
