/* The five settings of a below-knee prosthesis: words, sliders, the handles on the limb. */

const SETTINGS = (data.stance?.settings ?? []).map(({ name, title, unit, plus, step }) => ({
  name, unit, label: title[0].toUpperCase() + title.slice(1), hint: plus && `+ ${plus}`, coarse: Math.max(Math.round(1 / step), 5) }));
const SIDEWAYS = "M-8 0H8M-8 0l4 -4M-8 0l4 4M8 0l-4 -4M8 0l-4 4";

/* A value of a setting, without zeros that say nothing. */
function settingValue(value, unit) {
  return withUnit(Number(value.toFixed(2)), unit, tickDecimals(Number(value.toFixed(2)) || 1));
}

/* A setting in a few words. */
function settingWords(setting) {
  return SETTINGS.map(({ name, label, unit }) => `${label.toLowerCase()} ${settingValue(setting[name], unit)}`).join(", ");
}

/* Sliders for all settings. Returns {node, show(setting)}. */
function settingSliders(ranges, setting, onMove, onRest) {
  const sliders = SETTINGS.map((own) => {
    const [low, high, step] = ranges[own.name];
    return [own.name, slider({ ...own, low, high, step, value: setting[own.name] }, (value) => onMove(own.name, value), onRest)];
  });
  const node = el("div", { class: "settings-sliders screen-only" }, sliders.map(([, one]) => one.node));
  return { node, show: (now) => sliders.forEach(([name, one]) => one.set(now[name])) };
}

/* The settings as a table, for paper. */
function settingTable() {
  const rows = SETTINGS.map((own) => [own, el("td"), el("td")]);
  const node = el("table", { class: "print-only settings-table" },
    el("thead", {}, el("tr", {}, ["setting", "now", "held"].map((name) => el("th", { scope: "col" }, name)))),
    el("tbody", {}, rows.map(([own, now, held]) => el("tr", {}, el("th", { scope: "row" }, `${own.label}${own.hint && ` (${own.hint})`}`), now, held))));
  const show = (now, held) => rows.forEach(([own, a, b]) => {
    setText(a, settingValue(now[own.name], own.unit));
    setText(b, settingValue(held[own.name], own.unit));
  });
  return { node, show };
}

/* Three handles on the limb: the foot fore and aft, its tilt at the toe, the pylon's length.
   place() gives the pose that is drawn. Returns {node, show(pose)}. */
function limbHandles(drawing, view, ranges, { value, move, done, pose }) {
  const toDrawing = placeOnDrawing(drawing);
  const make = (name, label, unit, glyph, along, perUnit) => {
    const [low, high, step] = ranges[name];
    return dragHandle({ label, unit, low, high, step, glyph, along, perUnit, toDrawing, value: () => value(name) },
      (next) => move(name, next), done);
  };
  const flipped = ([x, y]) => [x, -y];
  const handles = {
    foot: make("foot_forward_mm", "Foot fore and aft", "mm", SIDEWAYS, () => flipped(prosthesisAxes(pose()).forward), () => 1),
    toe: make("dorsiflexion_deg", "Tilt of the foot, toe up or down", "deg", SIDEWAYS, () => flipped(acrossSole(pose())), () => toeArm(pose()) * 1000 * Math.PI / 180),
    pylon: make("length_change_mm", "Length of the pylon", "mm", SIDEWAYS, () => flipped(prosthesisAxes(pose()).up).map((part) => -part), () => 1),
  };
  const node = svg("g", { class: "handles screen-only" }, Object.values(handles).map((one) => one.node));
  return { node, show: (now) => now && placeHandles(view, handles, now) };
}

/* Square to the sole, upward. */
function acrossSole({ sole }) {
  const { along } = soleLine(sole);
  return [-along[1], along[0]];
}

/* From the ankle axis to the toe [m]. */
function toeArm({ sole, ankle }) {
  const toe = sole[sole.length - 1];
  return Math.hypot(toe[0] - ankle[0], toe[1] - ankle[1]);
}

function placeHandles(view, handles, pose) {
  const degrees = ([x, y]) => (Math.atan2(-y, x) * 180) / Math.PI;
  const { forward } = prosthesisAxes(pose);
  const across = acrossSole(pose);
  const toe = pose.sole[pose.sole.length - 1];
  const middle = [0, 1].map((i) => 0.5 * (pose.socket_end[i] + pose.ankle[i]));
  handles.foot.place(view.place(pose.ankle), degrees(forward));
  handles.toe.place(view.place([toe[0] + across[0] * 0.05, toe[1] + across[1] * 0.05]), degrees(across));
  handles.pylon.place(view.place(middle), degrees(forward) + 90);
  for (const handle of Object.values(handles)) handle.show();
}
