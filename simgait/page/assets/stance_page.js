/* The page of a below-knee limb: one state, and everything that shows it. */

function startStancePage() {
  const page = data.page;
  if (page.trouble) return showTrouble(page);
  const model = stanceModel(data.stance, standModel(data.standing));
  const names = Object.keys(model.baseline);
  const state = { model, page, setting: { ...model.baseline }, held: { ...model.baseline }, words: keyFirst(model.names, page.key_measures), percent: 30, run: null, good: null, heldRun: null };
  const fields = addressFields(model);
  const address = addressState(fields, (values, notes) => { arrive(state, values, notes, names); refresh(); });
  const arrived = address.read();
  arrive(state, arrived.values, arrived.notes, names);
  state.good = goodRun(model.run(state.setting)) ?? goodRun(model.run(model.baseline));
  const view = viewOfRun(goodRun(model.run(model.baseline)) ?? state.good ?? null);
  const parts = pageParts(state, view, address, { change, rest, hold, back });
  const say = liveRegion(byId("live"));

  function change(name, value) {
    state.setting = { ...state.setting, [name]: value };
    state.notes = [];
    compute();
  }
  const compute = oncePerFrame(() => refresh());
  function refresh() {
    runState(state);
    showState(state, parts);
    address.write(addressValues(state));
    say(() => spokenState(state));
  }
  function rest() { address.write(addressValues(state)); }
  function hold() { state.held = { ...state.setting }; state.heldRun = null; refresh(); }
  function back() { state.setting = { ...model.baseline }; state.held = { ...model.baseline }; state.heldRun = null; state.notes = []; refresh(); }
  refresh();
}

/* The numbers that an address may state: the setting, the held one, and the instant. */
function addressFields(model) {
  const fields = { at_percent: [0, 100], standing: [0, 1, 1] };
  for (const [name, range] of Object.entries(model.ranges)) {
    fields[name] = [...range, model.baseline[name]];
    fields[`held_${name}`] = fields[name];
  }
  return fields;
}

function addressValues({ setting, held, percent, model, standing }) {
  const values = { ...setting, at_percent: Math.round(percent * 2) / 2 };
  if (standing) values.standing = 1;
  for (const [name, value] of Object.entries(held)) {
    if (value !== model.baseline[name]) values[`held_${name}`] = value;
  }
  return values;
}

/* Take over what an address says; what it does not name is as in the case. */
function arrive(state, values, notes, names) {
  for (const name of names) {
    state.setting[name] = values[name] ?? state.model.baseline[name];
    state.held[name] = values[`held_${name}`] ?? state.model.baseline[name];
  }
  state.setting = { ...state.setting };
  state.heldRun = null;
  if (values.at_percent !== undefined) state.percent = values.at_percent;
  state.standing = values.standing === 1;
  state.notes = notes;
}

/* The words of all measures, the important ones first and marked. words: {name: {...}}. */
function keyFirst(words, key) {
  const others = Object.keys(words).filter((name) => !key.includes(name));
  return [...key, ...others].map((name) => ({ ...words[name], key: key.includes(name) }));
}

/* The page of a case that cannot be simulated: its reason. */
function showTrouble(page) {
  pageHead(page);
  pageFoot(page);
  byId("page").append(el("p", { class: "lacking" }, `This case cannot be simulated: ${page.trouble}.`));
}

const goodRun = (run) => (run && !run.refused && run.n > 0 ? run : null);

/* Run the setting, and the held one where that changed. A refused setting keeps the last good run. */
function runState(state) {
  const { model } = state;
  state.run = model.run(state.setting);
  state.heldRun ??= model.run(state.held);
  state.good = goodRun(state.run) ?? state.good;
}

/* What the voice says once things rest: the setting, and three measures. */
function spokenState(state) {
  if (state.run.refused) return `This setting cannot be simulated: ${state.run.refused}.`;
  if (state.standing && state.stood) return `${settingWords(state.setting)}. ${state.stood}`.replaceAll(MINUS, "minus ");
  const ended = state.run.ending === "toe_off" ? "" : ` ${state.model.endings[state.run.ending]}`;
  const held = goodRun(state.heldRun)?.measures;
  const told = state.words.filter((word) => state.page.spoken.includes(word.name))
    .map((word) => spokenMeasure(word, state.run.measures, held));
  return `${settingWords(state.setting)}.${ended} ${told.join("; ")}.`.replaceAll(MINUS, "minus ");
}
