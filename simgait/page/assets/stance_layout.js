/* What the page of a below-knee limb is made of, and how a state is shown in it. */

function pageParts(state, view, address, acts) {
  const pictures = limbPictures(state, view, acts);
  const player = transport({ label: "Instant of the stance", duration: () => state.good?.end_time ?? 1, start: state.percent },
    (percent) => { state.percent = percent; pictures.draw(state); curves.mark(percent); address.write(addressValues(state)); });
  const sliders = settingSliders(state.model.ranges, state.setting, acts.change, acts.rest);
  const curves = stanceCurves();
  const measures = measuresTable(state.words, { heading: "What changes" });
  const messages = el("div", { class: "messages" });
  const printed = settingTable();
  const settings = settingsPanel([sliders.node, printed.node], messages, {
    ...acts, link: () => address.link(addressValues(state)), save: () => saveCase(state),
  });
  byId("page").replaceChildren(
    el("div", { class: "limb-column" }, pictures.chooser, pictures.node, el("div", { class: "limb-below" }, pictures.told, player.node, pictures.key)),
    el("div", { class: "settings-column" }, settings, curves.others),
    el("div", { class: "results-column" }, curves.main, measures.node, pictures.results));
  measures.node.classList.add("walking-only");
  pageHead(state.page);
  pageFoot(state.page);
  return { pictures, player, sliders, curves, measures, messages, printed };
}

/* Show a state that was just computed. */
function showState(state, parts) {
  const { good, heldRun, setting, held } = state;
  const heldGood = goodRun(heldRun);
  const differs = Object.keys(held).some((name) => held[name] !== setting[name]);
  state.drawnHeld = differs ? heldGood : null;
  parts.sliders.show(setting);
  parts.printed.show(setting, held);
  parts.measures.draw(state.run.refused ? null : state.run.measures, heldGood?.measures ?? null);
  if (good) parts.curves.draw(good, state.drawnHeld);
  showMessages(parts.messages, state);
  parts.pictures.view(state);
  parts.player.set(state.percent);
}

/* What went otherwise than wished, in words. */
function showMessages(place, { run, notes, model, held, heldRun }) {
  const lines = [...(notes ?? []).map((note) => `From the address: ${note}`)];
  if (run.refused) lines.push(`This setting cannot be simulated: ${run.refused}. The drawing and the curves show the last one that can.`);
  else if (run.ending !== "toe_off") lines.push(model.endings[run.ending] ?? run.ending);
  // of a run that ended otherwise the last remark says just that, as the line above does in a sentence
  const remarks = run.refused ? [] : run.ending === "toe_off" ? run.remarks : run.remarks.slice(0, -1);
  for (const remark of remarks) lines.push(`${remark[0].toUpperCase()}${remark.slice(1)}.`);
  const bad = heldRun && (heldRun.refused || heldRun.ending !== "toe_off");
  if (bad) lines.push(`The held comparison (${settingWords(held)}): ${heldRun.refused ? `${heldRun.refused}.` : model.endings[heldRun.ending]}`);
  showLines(place, lines);
}
