/* The curves of an arm: the lift, the places of the loop, the lengths, the cable to the device. */

/* Returns {node, draw(state), mark(state)}. */
function armPlots(state) {
  const { model } = state;
  const lift = model.lifts ? liftPlots(model) : null;
  const device = model.lifts ? null : devicePlot(model);
  const lengths = lengthPlot(model);
  const plots = [...(lift?.plots ?? []), device, lengths].filter(Boolean);
  const node = el("section", { class: "curves panel", "aria-label": "Curves" },
    el("h2", {}, model.lifts ? "Pull, travel and length " : "Pull and length ",
      el("span", { class: "key-line key-now" }, "now"), el("span", { class: "key-line key-held" }, "held"),
      el("span", { class: "key-line key-limit" }, "limit")),
    el("div", { class: "curves-grid" }, plots.map((plot) => plot.node)));
  return {
    node,
    draw: () => { lift?.draw(state); device?.draw(state); lengths.draw(state); },
    mark: () => { lift?.mark(state); device?.mark(state); },
  };
}

function liftPlots({ given }) {
  const share = (100 * given.harness.fatigue_free_share).toFixed(0);
  const easyName = `does not tire (${share} %)`;
  const flexion = limitPlot({ title: "Pull against flexion", unit: "N", decimals: 1, xTitle: "elbow flexion [\u00b0]" });
  const travel = limitPlot({ title: "Pull against travel", unit: "N", decimals: 1, xTitle: "cable drawn at the harness [mm]" });
  const places = limitPlot({ title: "Peak pull by place of the loop", unit: "N", decimals: 1, names: "right", cap: true, xTitle: "loop from the elbow's axis [mm]" });
  const travels = limitPlot({ title: "Travel by place of the loop", unit: "mm", decimals: 1, names: "right", xTitle: "loop from the elbow's axis [mm]" });
  return {
    plots: [flexion, travel, places, travels],
    draw: (state) => {
      flexion.draw(flexionRows(state, easyName), [given.arm.flexion_from * DEG, given.arm.flexion_to * DEG]);
      travel.draw(travelRows(state, easyName), [0, travelEnd(state)]);
      if (state.fitting.rows.length < 2) return;
      const span = [state.fitting.rows[0].loop_mm, state.fitting.rows[state.fitting.rows.length - 1].loop_mm];
      for (const plot of [places, travels]) plot.mark(state.setting.loop_mm);
      places.draw(placeRows(state, "peak_pull_n", placeLimits(state, easyName)), span);
      travels.draw(placeRows(state, "excursion_mm", travelLimits(state)), span);
    },
    mark: ({ good, flexion: now }) => {
      flexion.mark(now * DEG);
      travel.mark(good ? valueAt(good.lift.curves.flexion, good.lift.curves.drawn, now) * MM : NaN);
    },
  };
}

/* A row in the unit shown, kept beside the run for the next time. */
function shownRow(run, name, factor) {
  run.shown ??= {};
  return run.shown[name] ??= Array.from(run.lift.curves[name], (value) => value * factor);
}

function flexionRows({ good, drawnHeld, model }, easyName) {
  const share = model.given.harness.fatigue_free_share;
  const of = (run, name, more = {}) => ({ name, x: shownRow(run, "flexion", DEG), y: shownRow(run, "pull", 1), ...more });
  const x = shownRow(good, "flexion", DEG);
  const can = shownRow(good, "capacity", 1);
  return {
    curves: [of(good, "now"), { name: "letting down", x, y: shownRow(good, "lowering", 1), thin: true },
      ...(drawnHeld ? [of(drawnHeld, "held", { held: true })] : [])],
    limits: [{ name: easyName, x, y: can.map((each) => each * share), unit: "N", dashed: true }, { name: "greatest pull", x, y: can, unit: "N" }],
  };
}

function travelEnd({ good, drawnHeld, model }) {
  const { cable, harness } = model.given;
  const lifted = Math.max(...[good, drawnHeld].filter(Boolean).map((run) => run.lift.curves.drawn[run.lift.curves.drawn.length - 1]));
  const device = cable.device_excursion === null ? 0 : formulas.travel_wanted(harness.opening_share, cable.device_excursion, cable.pulley);
  return MM * Math.max(1.06 * harness.max_excursion, lifted + device);
}

/* Pull over the cable drawn: the lift, and then the device with the elbow fully bent. */
function travelRows(state, easyName) {
  const { good, drawnHeld, model } = state;
  const { harness } = model.given;
  const of = (run, name, more = {}) => ({ name, x: shownRow(run, "drawn", MM), y: shownRow(run, "pull", 1), ...more });
  const x = Array.from(spread(0, travelEnd(state), 61));
  const can = x.map((each) => good.lift.setting.capacity.at(each / MM));
  const device = deviceStretch(good, model.given);
  return {
    curves: [of(good, "now"), ...(device ? [device] : []), ...(drawnHeld ? [of(drawnHeld, "held", { held: true })] : [])],
    limits: [{ name: easyName, x, y: can.map((each) => each * harness.fatigue_free_share), unit: "N", dashed: true }, { name: "greatest pull", x, y: can, unit: "N" }],
    uprights: [{ name: "greatest travel", x: harness.max_excursion * MM }],
  };
}

function deviceStretch(run, { cable, harness }) {
  if (cable.device_excursion === null || cable.device_pull === null) return null;
  const start = run.lift.curves.drawn[run.lift.curves.drawn.length - 1];
  const end = start + formulas.travel_wanted(harness.opening_share, cable.device_excursion, cable.pulley);
  const pulls = [cable.device_start_pull ?? cable.device_pull, cable.device_pull].map((pull) => formulas.pull_for(pull, cable.share_through, cable.pulley));
  return { name: "device, elbow bent", x: [start * MM, end * MM], y: cable.device_action === "closes" ? [pulls[0], pulls[0]] : pulls, thin: true };
}

function placeRows({ fitting, heldFitting, drawnHeld }, name, limits) {
  const of = ({ rows }, words, more = {}) => ({ name: words, x: rows.map((row) => row.loop_mm), y: rows.map((row) => row.measures[name]), ...more });
  const curves = [of(fitting, "now"), ...(drawnHeld && heldFitting ? [of(heldFitting, "held", { held: true })] : [])];
  return { curves, limits, uprights: fitting.best ? [{ name: "best balanced", x: fitting.best.loop_mm, mark: true }] : [] };
}

function placeLimits({ fitting, model }, name) {
  const { harness } = model.given;
  const x = fitting.rows.map((row) => row.loop_mm);
  return [{ name, unit: "N", dashed: true, x, y: x.map(() => harness.fatigue_free_share * harness.max_pull) }];
}

function travelLimits({ fitting, model }) {
  const { harness, cable } = model.given;
  const x = fitting.rows.map((row) => row.loop_mm);
  const level = (name, value, dashed) => ({ name, unit: "mm", x, y: x.map(() => value * MM), dashed });
  const wanted = cable.device_excursion === null ? null : formulas.travel_wanted(harness.opening_share, cable.device_excursion, cable.pulley);
  return [...(wanted === null ? [] : [level("leaves the device its travel", harness.max_excursion - wanted, true)]), level("greatest travel", harness.max_excursion, false)];
}

/* What the shoulder has to hold, by the length of the forearm. */
function lengthPlot(model) {
  const { given, ranges } = model;
  const [low, high] = ranges.forearm_change_mm;
  const plot = limitPlot({ title: "Moment at the shoulder", unit: "N m", decimals: 2, xTitle: "change of the forearm [mm]" });
  const x = Array.from(spread(low, high, 43));
  const moments = (setting) => x.map((change) => lengthMeasures(given, changedArm(given, { ...setting, forearm_change_mm: change })).shoulder_moment_nm);
  const capacity = given.harness.max_shoulder_moment;
  return {
    node: plot.node,
    draw: ({ setting, held, drawnHeld }) => {
      const other = drawnHeld && held.held_mass_kg !== setting.held_mass_kg;
      plot.draw({
        curves: [{ name: "now", x, y: moments(setting) }, ...(other ? [{ name: "held", x, y: moments(held), held: true }] : [])],
        limits: capacity === null ? [] : [{ name: "what this shoulder can hold", unit: "N m", x, y: x.map(() => capacity) }],
      }, [low, high]);
      plot.mark(setting.forearm_change_mm);
    },
  };
}

/* The cable to the device, out and back; it does not change with the length. */
function devicePlot({ given }) {
  const { device, harness } = given;
  if (!device) return null;
  const plot = limitPlot({ title: "Pull to work the device", unit: "N", decimals: 1, xTitle: "cable at the device [mm]" });
  const x = device.travel_mm;
  const can = x.map((travel) => greatestPull(given).at((travel / MM) * given.cable.pulley));
  const last = x.length - 1;
  return {
    node: plot.node,
    draw: () => plot.draw({
      curves: [{ name: "pulling", x, y: device.pull_n }, { name: "letting back", x, y: device.return_pull_n, thin: true }],
      limits: [{ name: `does not tire (${(100 * harness.fatigue_free_share).toFixed(0)} %)`, unit: "N", dashed: true, x, y: can.map((pull) => pull * harness.fatigue_free_share) },
        { name: "greatest pull", unit: "N", x, y: can }],
    }, [x[0], x[last]]),
    mark: ({ percent }) => plot.mark(x[Math.round((percent / 100) * last)]),
  };
}
