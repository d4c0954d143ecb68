/* What the page of an arm is made of, and how a state is shown in it. */

function armParts(state, address, acts) {
  const { model } = state;
  const pictures = armPictures(state, acts);
  const plots = armPlots(state);
  const player = transport({
    label: model.lifts ? "Flexion of the elbow" : "Travel of the device", duration: () => 1, start: state.percent,
    tell: (percent) => (model.lifts ? `elbow ${(flexionAt(model, percent) * DEG).toFixed(0)}\u00b0` : `device ${percent.toFixed(0)}\u00a0%`),
  }, (percent) => {
    setInstant(state, percent);
    pictures.draw();
    plots.mark();
    address.write(armAddressValues(state));
  });
  const sliders = armSliders(model, state.setting, acts.change, acts.rest);
  const tables = armMeasures(model);
  const verdict = armVerdict(state, (loop) => acts.change("loop_mm", loop));
  const ledger = model.lifts ? armLedger() : null;
  const level = levelPicture(model);
  const messages = el("div", { class: "messages" });
  const printed = armSettingTable(model);
  const settings = settingsPanel([sliders.node, printed.node], messages, {
    ...acts, link: () => address.link(armAddressValues(state)), save: () => saveArm(state),
  });
  const column = (name, ...parts) => el("div", { class: name }, ...parts.filter(Boolean));
  byId("page").replaceChildren(
    column("limb-column", pictures.node, column("limb-below", pictures.told, player.node, pictures.key)),
    column("settings-column", settings, verdict.node),
    column("arm-measures", tables.lift?.node, tables.device?.node, ledger?.node),
    plots.node,
    column("arm-lengths", column("panel", level.node), tables.length.node));
  return { pictures, plots, player, sliders, tables, verdict, ledger, level, messages, printed };
}

/* The tables of measures that an arm of this level has. */
function armMeasures({ lifts, given: { words, device } }) {
  return {
    lift: lifts ? measuresTable(words.lift, { heading: "The lift" }) : null,
    device: device && !lifts ? measuresTable(words.device, { heading: "Working the device" }) : null,
    length: measuresTable(words.length, { heading: "The length, held straight out" }),
  };
}

/* Show a state that was just computed. */
function showArm(state, parts) {
  const { good, heldRun, setting, held, run } = state;
  const refused = run.refused !== null;
  const heldGood = heldRun.refused === null ? heldRun : null;
  const differs = Object.keys(held).some((name) => held[name] !== setting[name]);
  state.drawnHeld = differs ? heldGood : null;
  parts.sliders.show(setting);
  parts.printed.show(setting, held);
  parts.verdict.draw(state);
  parts.tables.lift?.draw(refused ? null : run.lift.measures, heldGood?.lift.measures ?? null);
  parts.tables.length.draw(refused ? null : run.length, heldGood?.length ?? null);
  parts.tables.device?.draw(state.model.given.device, state.model.given.device);
  parts.ledger?.draw(state);
  parts.plots.draw();
  parts.level.draw(good, state.drawnHeld);
  showArmMessages(parts.messages, state);
  parts.pictures.view();
  parts.player.set(state.percent);
}

/* What went otherwise than wished, and cautions of this setting, in words. */
function showArmMessages(place, state) {
  const { run, notes, heldRun } = state;
  const lines = (notes ?? []).map((note) => `From the address: ${note}`);
  if (run.refused !== null) lines.push(`This setting cannot be: ${run.refused} Drawing and curves show the last one that can.`);
  if (heldRun.refused !== null) lines.push(`The held comparison cannot be: ${heldRun.refused}`);
  lines.push(...armWarnings(state));
  showLines(place, lines);
}

/* Offer the arm as a case file; returns what to tell the reader. */
function saveArm({ model, run }) {
  if (run.refused !== null) return `Not saved: ${run.refused}`;
  const name = model.given.page.case_file;
  download(name, armCaseText(model, run), "application/toml");
  return `Saved as ${name}.`;
}
