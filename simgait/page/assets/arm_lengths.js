/* The arm held straight out: what its length asks of the shoulder and gives in reach. */

/* The measures of a length by their names; NaN or null where there is none. */
function lengthMeasures(given, arm) {
  const { harness, gravity, mouth, midline, other_side: other } = given;
  const held = arm.device_mass + arm.held_mass;
  const beyond = [arm.upper_arm_mass, arm.upper_arm_centre, arm.forearm_mass, arm.forearm_centre, held, arm.device_centre];
  const level = (flexion) => formulas.held_moment(gravity, arm.upper_arm, ...beyond, flexion);
  const inertia = (flexion) => formulas.inertia_about_shoulder(
    arm.upper_arm, arm.upper_arm_mass, arm.upper_arm_centre, arm.forearm, arm.forearm_mass, arm.forearm_centre, held, arm.device_centre, flexion);
  const hanging = (flexion) => formulas.moment_of_hanging(gravity, arm.upper_arm, ...beyond, flexion);
  const swings = hanging(0) > 0 && hanging(arm.flexion_to) > 0;
  const swing = (flexion) => (swings ? formulas.swing_period(inertia(flexion), hanging(flexion)) : NaN);
  const reach = arm.upper_arm + arm.tip;
  const capacity = harness.max_shoulder_moment;
  return {
    forearm_change_mm: (arm.forearm - given.arm.forearm) * MM,
    forearm_mm: arm.forearm * MM,
    shoulder_moment_nm: level(0),
    shoulder_moment_bent_nm: level(Math.PI / 2),
    elbow_moment_nm: formulas.elbow_moment(gravity, arm.forearm_mass, arm.forearm_centre, held, arm.device_centre),
    inertia_kg_m2: inertia(0),
    first_acceleration_rad_s2: capacity === null || inertia(0) === 0 ? NaN : formulas.acceleration_from(capacity, inertia(0)),
    slowest_swing_s: swing(0),
    fastest_swing_s: swing(arm.flexion_to),
    ...socketMeasures(given, arm, level(0)),
    reach_mm: reach * MM,
    reach_lost_mm: (given.arm.upper_arm + given.arm.tip - reach) * MM,
    other_side_difference_mm: other === null ? NaN : (reach - other) * MM,
    mouth_reached: formulas.comes_as_near_and_far(mouth, arm.upper_arm, arm.tip, arm.flexion_to),
    midline_reached: arm.tip >= midline,
    within_capacity: capacity === null ? null : level(0) <= capacity,
  };
}

/* Moment and couple in the socket; NaN where its place or depth is not known. */
function socketMeasures(given, arm, moment) {
  if (given.socket_place === null) return { socket_moment_nm: NaN, brim_force_n: NaN, end_force_n: NaN };
  const load = formulas.whole_load(given.gravity, arm.upper_arm_mass, arm.forearm_mass, arm.device_mass, arm.held_mass);
  const there = formulas.moment_moved(moment, load, given.socket_place);
  if (given.socket_depth === null) return { socket_moment_nm: there, brim_force_n: NaN, end_force_n: NaN };
  const [brim, end] = formulas.socket_couple(there, load, given.socket_depth);
  return { socket_moment_nm: there, brim_force_n: brim, end_force_n: end };
}
