/* The standing model of one case: columns of a limb in, how its wearer stands out.
   Every equation is in `physics`, which is translated; here arrays are filled and read. */

const POINT_ROWS = {
  hip: "OUTLINE_HIP", knee: "OUTLINE_KNEE", brim: "OUTLINE_BRIM", socket_pivot: "OUTLINE_PIVOT",
  limb_end: "OUTLINE_LIMB_END", socket_end: "OUTLINE_SOCKET_END", ankle: "OUTLINE_ANKLE",
};

/* What standing_data.py says of a case -> stand(parameter, sole, setting, ownHeel).

   setting: the alignment as it is written; without it nothing is said of pelvis and heel.
   ownHeel: gives { parameter, sole } of the same setting on the heel that the foot was built for; it
   may fill the same arrays anew. The answer is of both feet; `alone`: of the prosthesis alone. */
function standModel(told) {
  const p = physics;
  const arrays = {};
  const sizes = {
    rest: p.REST_ROWS, load: p.LOAD_ROWS, pose: p.POSE_ROWS, disturbed: p.POSE_ROWS,
    brackets: p.BRACKET_ROWS, trial: p.TRIAL_ROWS, stood: p.STOOD_ROWS, outline: p.OUTLINE_ROWS,
    own: p.REST_ROWS, ownStood: p.STOOD_ROWS,
  };
  for (const [name, size] of Object.entries(sizes)) arrays[name] = new Float64Array(size);
  return (parameter, sole, setting = null, ownHeel = null) => {
    arrays.rest.set(told.rest);
    p.take_columns(0, parameter, sole, arrays.rest);
    const outer = setting === null ? {} : outerMeasures(told, arrays.rest, setting);
    const own = setting !== null && setting.heel_rise_mm === told.built_for_mm ? null : ownHeel;
    if (own !== null) {
      const columns = own();
      arrays.own.set(told.rest);
      p.take_columns(0, columns.parameter, columns.sole, arrays.own);
    }
    const driven = own !== null ? true : setting === null || ownHeel === null ? null : false;
    const both = wayStood(told, arrays, told.places.both, null, { outer, driven });
    const alone = wayStood(told, arrays, told.places.alone, 1.0, {
      outer: { ...outer, pelvic_tilt_deg: NaN }, driven,
    });
    return { ...both, alone };
  };
}

/* What geometry alone says, by name. */
function outerMeasures(told, rest, setting) {
  const p = physics;
  const heel = setting.heel_rise_mm / 1000.0;
  const { built_for, foot_length, heel_lever, level_lift, hip_height, hip_spacing } = told.level;
  const lift = p.ankle_lifted(heel, built_for, foot_length, heel_lever);
  const soundLift = rest[p.REST_LEG_LENGTH] - hip_height;
  const mismatch = setting.length_change_mm / 1000.0 + level_lift + lift - soundLift;
  const degrees = 180.0 / Math.PI;
  return {
    heel_mismatch_deg: degrees * Math.atan(p.heel_tangent(heel, built_for, foot_length)),
    pelvic_tilt_deg: degrees * p.pelvic_tilt(mismatch, hip_spacing),
  };
}

/* One way of standing, over a place of the foot; `share` null: as much as the knee can hold. */
function wayStood(told, arrays, place, share, { outer, driven }) {
  const p = physics;
  const { rest, load, pose, brackets, trial, disturbed, stood, own, ownStood } = arrays;
  rest[p.REST_PLACE] = place;
  own[p.REST_PLACE] = place;
  pose.fill(0.0);
  const carried = share ?? p.share_held(0.0, load, rest, pose, brackets);
  pose.fill(0.0);
  p.stand_with(carried, load, rest, pose, brackets, stood);
  disturbed.fill(0.0);
  p.find_limits(load, rest, pose, brackets, trial, disturbed, stood);
  const drawn = drawnStanding(arrays);
  const ending = told.endings[String(stood[p.STOOD_ENDING])];
  const measures = Object.fromEntries(told.measures.map(({ name }) => [name, NaN]));
  Object.assign(measures, outer);
  const limits = {};
  if (stood[p.STOOD_ENDING] === p.STANDS) {
    for (const { name, row, scale } of told.measures) if (row !== null) measures[name] = scale * stood[row];
    measures.knee_driven_forward_mm = driven === null ? NaN : 0.0;
    if (driven) {
      disturbed.fill(0.0);
      p.stand_with(carried, load, own, disturbed, brackets, ownStood);
      const moved = ownStood[p.STOOD_LINE_KNEE] - stood[p.STOOD_LINE_KNEE];
      measures.knee_driven_forward_mm = 1000.0 * moved;
    }
    told.limits.forEach((name, k) => putLimit(told, stood, name, k, rest[p.REST_WEIGHT], limits, measures));
  }
  return {
    ending, sentence: told.ending_sentences[ending], share: carried, measures, limits, ...drawn,
    line_ahead_of_knee_mm: 1000.0 * stood[p.STOOD_LINE_KNEE],
    line_ahead_of_ankle_mm: 1000.0 * stood[p.STOOD_LINE_ANKLE],
    line_ahead_of_hip_mm: 1000.0 * stood[p.STOOD_LINE_HIP],
    knee_moment_nm: stood[p.STOOD_KNEE_MOMENT],
    socket_moment_nm: stood[p.STOOD_SOCKET_MOMENT],
    hip_moment_nm: stood[p.STOOD_HIP_MOMENT],
    carried: carried * rest[p.REST_WEIGHT],
  };
}

/* Slope or push at which it ends: "forward slope" gives tips_forward_slope_deg and so on. */
function putLimit(told, stood, name, k, weight, limits, measures) {
  const p = physics;
  const row = p.STOOD_LIMITS + 3 * k;
  const ratio = stood[row + p.STOOD_RATIO];
  const reason = told.reasons[String(stood[row + p.STOOD_REASON])];
  limits[name] = { ratio, reason, sentence: told.limit_sentences[reason], place: stood[row + p.STOOD_AT] };
  const [way, kind] = name.split(" ");
  if (kind === "push") measures[`tips_${way}_push_n`] = weight * ratio;
  else measures[`tips_${way}_slope_deg`] = (Math.atan(ratio) * 180.0) / Math.PI;
}

/* Points, sole and load line of the pose that lies in the arrays; x from below the ankle axis [m]. */
function drawnStanding({ rest, pose, outline }) {
  const p = physics;
  p.outline_limb(rest, pose, outline);
  const at = (row) => ({ x: outline[p[row]], y: outline[p[row] + 1] });
  const points = Object.fromEntries(Object.entries(POINT_ROWS).map(([name, row]) => [name, at(row)]));
  const elements = { length: p.ELEMENTS };
  return {
    points,
    sole: {
      x: Float64Array.from(elements, (_, e) => outline[p.OUTLINE_SOLE + 2 * e]),
      y: Float64Array.from(elements, (_, e) => outline[p.OUTLINE_SOLE + 2 * e + 1]),
    },
    force: Float64Array.from(elements, (_, e) => pose[p.POSE_SOLE + 3 * e + p.POSE_FORCE]),
    pressure: outline[p.OUTLINE_PRESSURE],
    heel_end: outline[p.OUTLINE_HEEL_END],
    toe_end: outline[p.OUTLINE_TOE_END],
    centre_height: rest[p.REST_CENTRE_HEIGHT],
    leans: { thigh: pose[p.POSE_THIGH], residual: pose[p.POSE_RESIDUAL], prosthesis: pose[p.POSE_LEAN] },
  };
}
