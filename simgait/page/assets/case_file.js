/* The current alignment written into the text of the case. */

/* Offer the case with this alignment as a file; returns what to tell the reader. */
function saveCase({ page, setting, model }) {
  const written = writtenSetting(page, setting, model.baseline);
  const [low, high] = model.ranges.length_change_mm;
  if (!(written.length_change_mm >= low && written.length_change_mm <= high)) {
    return `Not saved: with this heel the length change would have to be ${withUnit(written.length_change_mm, "mm", 1)}, ` +
      `and a case file takes ${shownNumber(low, 0)} to ${shownNumber(high, 0)} mm.`;
  }
  download(page.case_file.name, caseText(page, setting, model.baseline), "application/toml");
  const added = written.length_change_mm - setting.length_change_mm;
  return `Saved as ${page.case_file.name}.${Math.abs(added) < 1e-9 ? "" : ` ${heelNote(added)}`}`;
}

function caseText(page, setting, baseline) {
  const written = writtenSetting(page, setting, baseline);
  const added = written.length_change_mm - setting.length_change_mm;
  const note = Math.abs(added) < 1e-9 ? "" : `${page.case_file.note} ${heelNote(added).replaceAll(MINUS, "-").replaceAll("\u00a0", " ")}\n`;
  return page.case_file.pieces.map((piece) => {
    if (typeof piece === "string") return piece;
    return piece.note ? note : tomlNumber(written[piece.setting]);
  }).join("");
}

/* A case takes its pylon as cut in its own shoes. With another heel, a case that says so would have
   another pylon; the length change written makes up for that, so that the limb stays this one. */
function writtenSetting({ level }, setting, baseline) {
  const heel = setting.heel_rise_mm;
  const added = heel === baseline.heel_rise_mm ? 0 : level.own_mm - level.at_mm[Math.round((heel - level.low) / level.step)];
  return { ...setting, length_change_mm: Number((setting.length_change_mm + added).toFixed(9)) };
}

function heelNote(added) {
  return `The length change written holds ${withUnit(added, "mm", 2, true)} because a case takes its pylon as cut in its own shoes, and the heel is another.`;
}

function tomlNumber(value) {
  return String(Number(value.toFixed(9)) + 0);
}
