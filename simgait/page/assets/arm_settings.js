/* The settings of an arm: words and sliders. */

const ARM_SETTINGS = [
  { name: "loop_mm", label: "Loop", unit: "mm", decimals: 0, hint: "from the elbow's axis along the forearm", coarse: 5 },
  { name: "guide_mm", label: "Guide", unit: "mm", decimals: 0, hint: "above the elbow's axis on the upper arm", coarse: 5 },
  { name: "forearm_change_mm", label: "Change of the forearm", unit: "mm", decimals: 0, hint: "+ longer; the shell's mass goes with it", coarse: 5 },
  { name: "held_mass_kg", label: "Load in the device", unit: "kg", decimals: 2, hint: "what is held while lifting", coarse: 5 },
];

const armSettings = (model) => ARM_SETTINGS.filter(({ name }) => name in model.ranges);

/* A setting in a few words. */
function armSettingWords(model, setting) {
  return armSettings(model).map(({ name, label, unit, decimals }) => `${label.toLowerCase()} ${withUnit(setting[name], unit, decimals)}`).join(", ");
}

/* Sliders for all settings. Returns {node, show(setting)}. */
function armSliders(model, setting, onMove, onRest) {
  const sliders = armSettings(model).map((own) => {
    const [low, high, step] = model.ranges[own.name];
    return [own.name, slider({ ...own, low, high, step, value: setting[own.name] }, (value) => onMove(own.name, value), onRest)];
  });
  const node = el("div", { class: "settings-sliders screen-only" }, sliders.map(([, one]) => one.node));
  return { node, show: (now) => sliders.forEach(([name, one]) => one.set(now[name])) };
}

/* The settings as a table, for paper. */
function armSettingTable(model) {
  const rows = armSettings(model).map((own) => [own, el("td"), el("td")]);
  const node = el("table", { class: "print-only settings-table" },
    el("thead", {}, el("tr", {}, ["setting", "now", "held"].map((name) => el("th", { scope: "col" }, name)))),
    el("tbody", {}, rows.map(([own, now, held]) => el("tr", {}, el("th", { scope: "row" }, `${own.label} (${own.hint})`), now, held))));
  const show = (now, held) => rows.forEach(([own, a, b]) => {
    setText(a, withUnit(now[own.name], own.unit, own.decimals));
    setText(b, withUnit(held[own.name], own.unit, own.decimals));
  });
  return { node, show };
}
