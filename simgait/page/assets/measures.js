/* Measures in plain words: value, comparison and change, the important ones first. */

/* words: [{name, title, unit, sentence, definition, key}]. labels: heads of the columns.
   Returns {node, draw(now, held)} with {name: value} each; held may be null. */
function measuresTable(words, { heading, columns = ["now", "held", "change"] }) {
  const rows = words.map((word) => measureRow(word));
  const table = (own, caption) => el("table", { class: "measures" },
    el("caption", { class: "unseen" }, caption),
    el("thead", {}, el("tr", {}, el("th", { scope: "col" }, "what"), columns.map((name) => el("th", { scope: "col" }, name)))),
    el("tbody", {}, own.map((row) => row.node)));
  const first = rows.filter((row) => row.word.key);
  const others = rows.filter((row) => !row.word.key);
  const rest = el("details", { class: "screen-only" },
    el("summary", {}, `All other measures (${others.length})`), table(others, `${heading}, the others`));
  rest.addEventListener("toggle", () => rest.open && others.forEach((row) => row.show()));
  const node = el("section", { class: "panel", "aria-label": heading }, el("h2", {}, heading), table(first, heading), others.length > 0 && rest);
  return {
    node,
    draw: (now, held) => {
      for (const row of rows) {
        row.set(now, held);
        if (row.word.key || rest.open) row.show();
      }
    },
  };
}

function measureRow(word) {
  const cells = [0, 1, 2].map(() => el("td"));
  const unit = shownUnit(word.unit);
  const node = el("tr", { "data-measure": word.name },
    el("th", { scope: "row", title: word.definition },
      word.title, unit && el("span", { class: "quiet" }, ` [${unit}]`),
      el("span", { class: "measure-sentence" }, word.sentence)),
    cells);
  const decimals = decimalsOf(word.unit);
  let values = [NaN, NaN, NaN];
  return {
    word,
    node,
    set: (now, held) => {
      const [a, b] = [now?.[word.name] ?? NaN, held?.[word.name] ?? NaN];
      values = [a, b, a - b];
    },
    show: () => {
      values.forEach((value, i) => setText(cells[i], shownNumber(value, decimals, i === 2)));
      node.classList.toggle("changed", Number(Math.abs(values[2]).toFixed(decimals)) > 0);
      setAttributes(node, { "data-value": Number.isFinite(values[0]) ? values[0] : null });
    },
  };
}

/* One measure in words, for the voice: its title, value and unit, and its change. */
function spokenMeasure(word, now, held) {
  const decimals = decimalsOf(word.unit);
  const [a, b] = [now?.[word.name] ?? NaN, held?.[word.name] ?? NaN];
  const change = a - b;
  const told = Number(Math.abs(change).toFixed(decimals)) > 0
    ? `, ${change > 0 ? "up" : "down"} by ${Math.abs(change).toFixed(decimals)}` : "";
  return `${word.title} ${spokenNumber(a, decimals)} ${spokenUnit(word.unit)}${told}`;
}
