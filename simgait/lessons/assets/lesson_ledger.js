/* What was paid: a table with bars; force times way, or what is gained here and paid there. */

const LEDGER_WIDTH = 260;

/* The ledger's table for the figures now and at the start; `told` writes a figure. */
function ledgerTable(lesson, now, start, told) {
  return lesson.ledger.kind === "work" ? workTable(lesson, now, start, told) : exchangeTable(lesson, now, start, told);
}

function workTable({ ledger }, now, start, told) {
  const most = Math.max(now.work_in, start.work_in);
  const row = (who, force, way, work, look) => el("tr", {},
    el("th", { scope: "row" }, who),
    el("td", {}, force), el("td", {}, way),
    el("td", {}, work ? told(work, now) : ""),
    el("td", { class: "ledger-bar" }, ledgerBar([[0, now[work] / most, look]])));
  return el("table", { class: "ledger" },
    el("caption", {}, ledger.title),
    el("thead", {}, el("tr", {}, ...["", "force", "\u00d7 way", "= work"].map((words) => el("th", { scope: "col" }, words)), el("td", { class: "ledger-bar" }))),
    el("tbody", {},
      row(ledger.giver, told("effort", now), told("effort_travel", now), "work_in", "effort"),
      row(ledger.taker, told("load", now), told("load_travel", now), "work_out", "load"),
      row(ledger.loss, "", "", "lost", "lost")));
}

function exchangeTable({ ledger }, now, start, told) {
  const shares = ledger.rows.map(({ key }) => (now[key] - start[key]) / (Math.abs(start[key]) || 1));
  const most = Math.max(0.1, ...shares.map(Math.abs));
  const rows = ledger.rows.map(({ key, gain, why }, i) => {
    const share = shares[i];
    const kind = Math.abs(share) < 0.005 ? "same" : Math.sign(share) === gain ? "gained" : "paid";
    const size = (Math.abs(share) / most) * 0.5;
    const bar = kind === "gained" ? [0.5, 0.5 + size, "load"] : [0.5 - size, 0.5, "effort"];
    return el("tr", {},
      el("th", { scope: "row" }, labelOf(key), el("span", { class: "ledger-why" }, `a gain when ${gain < 0 ? "less" : "more"}: ${why}`)),
      el("td", {}, told(key, start)), el("td", {}, told(key, now)),
      el("td", {}, kind === "same" ? "as before" : `${kind}: ${shownNumber(100 * share, 0, true)}%`),
      el("td", { class: "ledger-bar" }, ledgerBar(kind === "same" ? [] : [bar], true)));
  });
  return el("table", { class: "ledger" },
    el("caption", {}, ledger.title),
    el("thead", {}, el("tr", {}, ...["", "at the start", "now", "change"].map((words) => el("th", { scope: "col" }, words)), el("td", { class: "ledger-bar" }, "paid \u2190 \u2192 gained"))),
    el("tbody", {}, ...rows));
}

/* A bar or several: [from, to, look] as shares of the width. */
function ledgerBar(parts, middle = false) {
  return svg("svg", { viewBox: `0 0 ${LEDGER_WIDTH} 18`, class: "ledger-drawing", "aria-hidden": "true", preserveAspectRatio: "none" },
    ...parts.map(([from, to, look]) => svg("rect", { class: `bar ${look}`, x: from * LEDGER_WIDTH, width: Math.max((to - from) * LEDGER_WIDTH, 0), y: 2, height: 14 })),
    middle && svg("path", { class: "bar-middle", d: `M${LEDGER_WIDTH / 2} 0v18` }));
}
