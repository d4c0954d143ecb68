/* The stance model of one case: an alignment in, a simulated stance out.
   Every equation is in `physics`, which is translated; here columns are filled and read. */

const CURVE_ROWS = {
  force_up: ["FORCE_UP", 1],
  force_forward: ["FORCE_FORWARD", 1],
  knee_flexion_moment: ["MOMENT_KNEE", -1],
  socket_flexion_moment: ["MOMENT_SOCKET", 1],
  hip_flexion_moment: ["MOMENT_HIP", 1],
  thigh_lean: ["THIGH", 1],
  shank_lean: ["RESIDUAL", 1],
};

/* What stance_data.py says of a case -> { run, stand, ranges, baseline, names, ... }. */
function stanceModel(told, stand = null) {
  const arrays = stanceArrays(told);
  const model = {
    baseline: { ...told.baseline },
    alignments: told.alignments,
    names: Object.fromEntries(told.measures.map((each) => [each.name, each])),
    settings: told.settings,
    ranges: Object.fromEntries(told.settings.map((each) => [each.name, [each.low, each.high, each.step]])),
    endings: told.ending_sentences,
    main: told.main_measures,
    run: (setting) => runOf(told, arrays, { ...setting }),
  };
  if (stand) model.stand = (setting) => stoodOf(told, arrays, { ...setting }, stand);
  return model;
}

/* The flat arrays of one run, made once: rows times one lane. */
function stanceArrays(told) {
  const p = physics;
  const pace = told.pace;
  const stance = told.parameter[p.STANCE_TIME];
  const steps = Math.ceil((pace.latest * stance * pace.finest) / pace.step) + 3;
  const sizes = {
    setting: p.SETTING, parameter: p.PARAMETERS, sole: p.SOLE_ROWS, reference: p.REFERENCE_ROWS,
    state: p.STATES, rate: p.STATES, base: p.STATES, total: p.STATES, first: p.STATES,
    scratch: p.SCRATCH, leans: p.LEANS, taken: 1, ends: p.ENDS, found: p.FOUND, measures: p.MEASURES,
    curves: p.CHANNELS * steps, series: p.SERIES * steps,
  };
  const arrays = { steps, bench: Float64Array.from(told.bench), built: Float64Array.from(told.built) };
  for (const [name, size] of Object.entries(sizes)) arrays[name] = new Float64Array(size);
  return arrays;
}

/* A setting in SI, and how far the sound side's shoe lifts its ankle. */
function fillSetting(told, setting, column) {
  const p = physics;
  const degree = Math.PI / 180.0;
  column[p.SET_FOOT_FORWARD] = setting.foot_forward_mm / 1000.0;
  column[p.SET_DORSIFLEXION] = setting.dorsiflexion_deg * degree;
  column[p.SET_SOCKET_FLEXION] = setting.socket_flexion_deg * degree;
  column[p.SET_LENGTH_CHANGE] = setting.length_change_mm / 1000.0;
  column[p.SET_HEEL_RISE] = setting.heel_rise_mm / 1000.0;
  const sound = told.sound;
  const rise = sound.heel_rise === null ? column[p.SET_HEEL_RISE] : sound.heel_rise;
  const lever = sound.behind * sound.foot;
  column[p.SET_SOUND_LIFT] = sound.thickness + p.ankle_lifted(rise, 0.0, sound.foot, lever);
}

/* Why a setting cannot be simulated, in words; null if it can. */
function settingRefused(told, setting) {
  for (const each of told.settings) {
    const value = setting[each.name];
    if (!Number.isFinite(value)) return `${each.title} is not a number`;
    if (value < each.low || value > each.high) {
      return `${each.title} would be ${shownNumber(value, 1)} ${each.unit}; allowed: ` +
        `${shownNumber(each.low, 1)} to ${shownNumber(each.high, 1)}`;
    }
  }
  return null;
}

/* Set the limb up in the arrays; why it cannot be built, or null. */
function setUpRefused(told, arrays, setting) {
  const p = physics;
  fillSetting(told, setting, arrays.setting);
  arrays.parameter.set(told.parameter);
  arrays.sole.set(told.built);
  arrays.reference.set(told.reference);
  p.set_up(1, arrays.bench, arrays.setting, arrays.built, arrays.parameter, arrays.sole, arrays.reference);
  const ankle = arrays.parameter;
  const length = Math.hypot(ankle[p.ANKLE_FORWARD], ankle[p.ANKLE_UP] + arrays.bench[p.BENCH_END]);
  const { shortest, longest } = told.pylon;
  if (length >= shortest && length <= longest) return null;
  return `the pylon would be ${shownNumber(1000.0 * length, 0)} mm from the socket's end to the ankle; allowed: ` +
    `${shownNumber(1000.0 * shortest, 0)} to ${shownNumber(1000.0 * longest, 0)} mm`;
}

/* The step between instants, and the instant from which two are taken in one: as `paces` in Python. */
function pacesOf(told, arrays) {
  const { step, margin, loading } = told.pace;
  const at = (largest) => {
    physics.find_steps(1, largest, arrays.state, arrays.parameter, arrays.leans, arrays.taken);
    return arrays.taken[0];
  };
  const doubled = at(margin * step) === margin * step;
  const taken = doubled ? step : at(step);
  const steps = Math.ceil((told.pace.latest * arrays.parameter[physics.STANCE_TIME]) / taken) + 3;
  return { step: taken, steps, fine: doubled ? roundHalfEven(loading / taken) : steps };
}

/* As Python rounds. */
function roundHalfEven(value) {
  const low = Math.floor(value);
  const rest = value - low;
  return rest < 0.5 || (rest === 0.5 && low % 2 === 0) ? low : low + 1;
}

function runOf(told, arrays, setting) {
  const a = arrays;
  const p = physics;
  const refused = settingRefused(told, setting) ?? setUpRefused(told, a, setting);
  if (refused !== null) return { setting, refused };
  p.begin(1, a.bench, a.setting, a.parameter, a.reference, a.scratch, a.leans, a.state);
  p.touch_down(1, a.parameter, a.sole, a.state);
  const { step, steps, fine } = pacesOf(told, a);
  if (steps > a.steps) return { setting, refused: "the limb is too light to be simulated in a page" };
  p.run_stance(1, steps, fine, step, a.state, a.parameter, a.sole, a.reference, a.scratch, a.rate, a.base,
    a.first, a.total, a.curves, a.ends);
  p.measure_block(1, steps, step, a.curves, a.parameter, a.ends, a.series, a.found, a.measures);
  const ending = told.endings[String(a.ends[p.ENDING])];
  const measures = Object.fromEntries(told.measures.map((each) =>
    [each.name, (a.measures[each.row] * each.scale) / (each.per_mass ? told.mass : 1.0)]));
  const drawn = drawnOf(told, a, step);
  return {
    setting, refused: null, ending, end_time: a.ends[p.END_TIME], step, measures,
    remarks: remarksOf(told, setting, ending, measures), ...drawn,
  };
}

/* Time, places and curves of a run that lies in the arrays, as `stance_curves` in Python. */
function drawnOf(told, a, step) {
  const p = physics;
  const n = a.ends[p.END_STEP] + 1;
  const curves = Object.fromEntries(Object.keys(CURVE_ROWS).map((name) => [name, new Float64Array(n)]));
  for (const [name, [row, sign]] of Object.entries(CURVE_ROWS)) {
    for (let k = 0; k < n; k += 1) curves[name][k] = sign * a.curves[k * p.CHANNELS + p[row]];
  }
  curves.knee_flexion = curves.shank_lean.map((lean, k) => lean - curves.thigh_lean[k]);
  const time = Float64Array.from({ length: n }, (_, k) => step * k);
  const percent = time.map((seconds) => (100.0 * seconds) / a.ends[p.END_TIME]);
  const placed = placesOf(told, a, n);
  curves.pressure_ahead_of_ankle = placed.ahead;
  const { points, sole, pressure_x } = placed;
  return { n, time, percent, curves, points, sole, elements: p.ELEMENTS, pressure_x };
}

/* Where everything is at each instant: joints, sole, pressure point. */
function placesOf(told, a, n) {
  const p = physics;
  const pair = () => ({ x: new Float64Array(n), y: new Float64Array(n) });
  const names = ["hip", "knee", "brim", "socket_pivot", "limb_end", "socket_end", "ankle"];
  const points = Object.fromEntries(names.map((name) => [name, pair()]));
  const sole = { x: new Float64Array(n * p.ELEMENTS), y: new Float64Array(n * p.ELEMENTS) };
  const pressure_x = new Float64Array(n);
  const ahead = new Float64Array(n);
  const { thigh, below_knee, depth, end } = told.points;
  for (let k = 0; k < n; k += 1) {
    const row = (name) => a.curves[k * p.CHANNELS + p[name]];
    const put = (name, from, lean, forward, up) => {
      points[name].x[k] = from[0] + p.turned_forward(forward, up, -lean);
      points[name].y[k] = from[1] + p.turned_up(forward, up, -lean);
      return [points[name].x[k], points[name].y[k]];
    };
    const residual = row("RESIDUAL");
    const lean = row("PROSTHESIS");
    const hip = put("hip", [row("HIP_X"), row("HIP_Y")], 0.0, 0.0, 0.0);
    const knee = put("knee", hip, row("THIGH"), 0.0, -thigh);
    const pivot = put("socket_pivot", knee, residual, 0.0, -below_knee);
    const ankle = put("ankle", pivot, lean, a.parameter[p.ANKLE_FORWARD], a.parameter[p.ANKLE_UP]);
    put("brim", pivot, lean, 0.0, depth / 2.0);
    put("limb_end", pivot, residual, 0.0, -depth / 2.0);
    put("socket_end", pivot, lean, 0.0, -end);
    for (let e = 0; e < p.ELEMENTS; e += 1) {
      const forward = a.sole[4 * e + p.SOLE_FORWARD];
      const up = a.sole[4 * e + p.SOLE_UP];
      sole.x[k * p.ELEMENTS + e] = pivot[0] + p.turned_forward(forward, up, -lean);
      sole.y[k * p.ELEMENTS + e] = pivot[1] + p.turned_up(forward, up, -lean);
    }
    const loaded = row("FORCE_UP") > told.least_load * a.parameter[p.BODY_WEIGHT];
    pressure_x[k] = loaded ? row("FORCE_MOMENT") / row("FORCE_UP") : NaN;
    ahead[k] = p.turned_forward(pressure_x[k] - ankle[0], -ankle[1], lean - a.parameter[p.SOLE_SLOPE]);
  }
  return { points, sole, pressure_x, ahead };
}

/* What should make a reader doubt that a wearer would walk so; as `remarks_on` in Python. */
function remarksOf(told, setting, ending, measures) {
  const { most_heel_mm, heel, most_length_mm, length, ended, bounds } = told.remarks;
  const found = [];
  const rise = setting.heel_rise_mm - told.built_for_mm;
  if (Math.abs(rise) > most_heel_mm) found.push(heel.replace("{value}", shownNumber(rise, 0, true)));
  const longer = setting.length_change_mm;
  if (Math.abs(longer) > most_length_mm) found.push(length.replace("{value}", shownNumber(longer, 0, true)));
  if (ending !== "toe_off") return [...found, ended.replace("{value}", ending.replaceAll("_", " "))];
  for (const bound of bounds) {
    const value = Math.max(...bound.measures.map(([sign, name]) => sign * measures[name]));
    if (value > bound.most) found.push(bound.sentence.replace("{value}", shownNumber(value, 0)));
  }
  return found;
}

/* The limb standing at a setting; `stand` takes its columns, and asks for those on its own heel. */
function stoodOf(told, arrays, setting, stand) {
  const refused = settingRefused(told, setting) ?? setUpRefused(told, arrays, setting);
  if (refused !== null) return { setting, refused };
  const ownHeel = () => {
    setUpRefused(told, arrays, { ...setting, heel_rise_mm: told.built_for_mm });
    return arrays;
  };
  return { setting, refused: null, ...stand(arrays.parameter, arrays.sole, setting, ownHeel) };
}
