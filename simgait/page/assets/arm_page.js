/* The page of an arm: one state, and everything that shows it. */

function startArmPage() {
  const model = armModel(data);
  const { baseline } = model;
  const state = { model, setting: { ...baseline }, held: { ...baseline }, percent: 50, opening: 0, notes: [], good: model.run(baseline), heldRun: null, fittingKey: "" };
  setInstant(state, state.percent);
  const address = addressState(armAddressFields(model), (values, notes) => { arriveArm(state, values, notes); refresh(); });
  const first = address.read();
  arriveArm(state, first.values, first.notes);
  computeArm(state);
  const parts = armParts(state, address, { change, rest, hold, back });
  const say = liveRegion(byId("live"));
  pageHead(data.page);
  pageFoot(data.page);

  function change(name, value) {
    state.setting = { ...state.setting, [name]: value };
    state.notes = [];
    later();
  }
  const later = oncePerFrame(() => refresh());
  function refresh() {
    computeArm(state);
    showArm(state, parts);
    address.write(armAddressValues(state));
    say(() => spokenArm(state));
  }
  function rest() { address.write(armAddressValues(state)); }
  function hold() { state.held = { ...state.setting }; state.heldRun = null; refresh(); }
  function back() { state.setting = { ...baseline }; state.held = { ...baseline }; state.heldRun = null; state.notes = []; refresh(); }
  refresh();
}

/* Run the setting, and the held one where that changed; a refused setting keeps the last good run.
   The places of the loop are judged anew only where something else than the loop was changed. */
function computeArm(state) {
  const { model, setting, held } = state;
  state.run = model.run(setting);
  state.heldRun ??= model.run(held);
  if (state.run.refused === null) state.good = state.run;
  if (!model.lifts) return;
  const key = fittingKey(state.good.setting);
  if (key !== state.fittingKey) {
    state.fittingKey = key;
    state.fitting = placesOf(model, state.good.setting);
  }
  const other = fittingKey(held);
  if (other !== state.heldKey) {
    state.heldKey = other;
    state.heldFitting = placesOf(model, held);
  }
}

function fittingKey({ guide_mm: guide, forearm_change_mm: change, held_mass_kg: load }) {
  return [guide, change, load].join();
}

const PLACES = 110; // of the loop that are judged along a forearm

/* Places of the loop all along the forearm, judged, and the best of those that the case searches. */
function placesOf(model, setting) {
  const { given } = model;
  const [low] = model.ranges.loop_mm;
  const end = changedArm(given, setting).forearm;
  const step = Math.max(1, Math.ceil((end * MM - low) / PLACES));
  const loops = [];
  for (let loop = low; loop / MM <= end + 1e-9; loop += step) loops.push(loop / MM);
  return { rows: withEdges(model, setting, model.search(setting, loops).rows), best: model.search(setting).best };
}

const EDGE = 0.1; // [mm] to which the end of a stretch that fits is found

/* Rows with two more wherever the judgement changes between neighbours, close about the change. */
function withEdges(model, setting, rows) {
  return rows.flatMap((row, i) => {
    const after = rows[i + 1];
    if (!after || fitKind(row.measures) === fitKind(after.measures)) return [row];
    let [low, high] = [row, after];
    while (high.loop_mm - low.loop_mm > EDGE) {
      const [middle] = model.search(setting, [(low.loop_mm + high.loop_mm) / 2 / MM]).rows;
      if (fitKind(middle.measures) === fitKind(row.measures)) low = middle;
      else high = middle;
    }
    return [row, low, high].filter((each, k) => (k === 0 || each !== row) && each !== after);
  });
}

/* Elbow flexion at a share of the range [rad]. */
function flexionAt({ given }, percent) {
  const { flexion_from: from, flexion_to: to } = given.arm;
  return from + (percent / 100) * (to - from);
}

function setInstant(state, percent) {
  state.percent = percent;
  state.flexion = state.model.lifts ? flexionAt(state.model, percent) : Math.PI / 2;
  state.opening = state.model.lifts ? 0 : percent / 100;
}

/* The numbers that an address may state: the setting, the held one, and the instant. */
function armAddressFields(model) {
  const fields = { at_percent: [0, 100] };
  for (const [name, [low, high]] of Object.entries(model.ranges)) {
    fields[name] = [low, high];
    fields[`compared_${name}`] = [low, high];
  }
  return fields;
}

function armAddressValues({ setting, held, percent, model }) {
  const values = { ...setting, at_percent: Math.round(percent * 2) / 2 };
  for (const [name, value] of Object.entries(held)) {
    if (value !== model.baseline[name]) values[`compared_${name}`] = value;
  }
  return values;
}

/* Take over what an address says; what it does not name is as in the case. */
function arriveArm(state, values, notes) {
  const { baseline } = state.model;
  const taken = (stem) => Object.fromEntries(Object.entries(baseline).map(([name, own]) => [name, values[`${stem}${name}`] ?? own]));
  state.setting = taken("");
  state.held = taken("compared_");
  state.heldRun = null;
  if (values.at_percent !== undefined) setInstant(state, values.at_percent);
  state.notes = notes;
}

/* What the voice says once things rest. */
function spokenArm(state) {
  const { model, run, heldRun } = state;
  if (run.refused !== null) return `This setting cannot be: ${run.refused}`;
  const { words, spoken } = model.given;
  const told = [["lift", run.lift?.measures, heldRun.lift?.measures], ["length", run.length, heldRun.length]].flatMap(([kind, now, held]) =>
    (now ? words[kind].filter((word) => spoken.includes(word.name)).map((word) => spokenMeasure(word, now, held)) : []));
  return `${armSettingWords(model, run.setting)}. ${verdictWords(state, limitsOf(state, run))} ${told.join("; ")}.`.replaceAll(MINUS, "minus ");
}
