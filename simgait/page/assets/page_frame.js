/* What frames every page of a case: head and foot, the panel of settings, and the remarks. */

function pageHead({ title, cautions, invented }) {
  refill(byId("head"),
    el("h1", {}, title),
    invented && el("p", { class: "quiet small" }, "The case says that it is invented: no real person stands behind it."),
    el("div", { class: "caution small" }, cautions.map((caution) => el("p", {}, caution))));
}

function pageFoot({ version, file, filled, sources }) {
  const list = (words, lines) => lines.length > 0 && el("details", {}, el("summary", {}, words), el("ul", {}, lines.map((line) => el("li", {}, line))));
  refill(byId("foot"),
    list("Filled in, because the case leaves it out", filled),
    list("What standing still assumes", data.standing?.assumptions ?? []),
    list("Sources of the figures", sources),
    el("p", { class: "quiet small" }, `Case ${file}. Computed in this page by simgait ${version}; nothing was sent anywhere.`));
}

/* The panel of settings: sliders and table, four buttons, what was saved, and the remarks.
   acts: hold, back; link, which gives the address of this setting; save, which says what it did. */
function settingsPanel(parts, messages, { hold, back, link, save }) {
  const saved = el("p", { class: "small", role: "status" });
  return el("section", { class: "settings panel", "aria-label": "Settings" },
    el("h2", {}, "Settings"), ...parts,
    el("div", { class: "row screen-only" },
      button("Hold as comparison", hold),
      button("Back to the case", back),
      copyButton(link),
      button("Save as a case file", () => setText(saved, save()))),
    saved, messages);
}

/* Show remarks, a line each; the place is left alone where they stand there already. */
function showLines(place, lines) {
  const key = lines.join("|");
  if (place.dataset.key === key) return;
  place.dataset.key = key;
  refill(place, lines.map((line) => el("p", { class: "remark" }, line)));
}
