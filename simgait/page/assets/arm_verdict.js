/* Whether the wearer can work it, which limit binds, and where the work goes; in words. */

/* Returns {node, draw(state)}; move(loop) puts the loop at a place [mm]. */
function armVerdict({ model }, move) {
  const said = el("p", { class: "verdict-words" });
  const binding = el("p", {});
  const body = el("tbody");
  const fits = el("p", {});
  let best = null;
  const go = button("Put the loop there", () => best !== null && move(best), { class: "absent" });
  const node = el("section", { class: "panel verdict", "aria-label": "This wearer's limits" },
    el("h2", {}, "This wearer's limits"), said, binding,
    el("table", {}, el("caption", { class: "unseen" }, "What is left of each limit"),
      el("thead", {}, el("tr", {}, ["limit", "left", "held"].map((words) => el("th", { scope: "col" }, words)))), body),
    model.lifts && fits, model.lifts && el("div", { class: "row screen-only" }, go));
  return {
    node,
    draw: (state) => {
      const limits = limitsOf(state, state.good);
      const held = state.heldRun?.refused === null ? limitsOf(state, state.heldRun) : [];
      setText(said, verdictWords(state, limits));
      setText(binding, bindingWords(limits));
      refill(body, limits.map((limit) => limitRow(limit, held.find((other) => other.name === limit.name))));
      if (!model.lifts) return;
      const { fitting } = state;
      best = fitting.best?.loop_mm ?? null;
      setText(fits, `${stripWords(fitting.rows)}${best === null ? "" : ` Best balanced of the places that the case searches: loop at ${best.toFixed(0)} mm.`}`);
      go.classList.toggle("absent", best === null || best === state.setting.loop_mm);
    },
  };
}

/* Each limit with what is left of it, as a share; below nothing it is exceeded. */
function limitsOf({ model }, run) {
  const { given } = model;
  const title = (name) => given.limit_titles[name];
  const found = [];
  if (run.lift) {
    const { margins, measures } = run.lift;
    if (margins.axis < 0) {
      const where = Number.isFinite(measures.crosses_axis_at_deg) ? ` at ${measures.crosses_axis_at_deg.toFixed(0)}\u00b0` : "";
      found.push({ name: "axis", title: title("axis"), sentence: `the cable passes it${where}: no lever there`, left: -Infinity });
    } else {
      for (const [name, left] of Object.entries(margins)) {
        if (name !== "axis") found.push({ name, title: title(name), sentence: given.names.margins[name].sentence, left });
      }
      found.push({ name: "easy", title: "pull that does not tire", sentence: "Against the share that does not tire.", soft: true,
        left: formulas.margin_without_tiring(margins.pull, given.harness.fatigue_free_share) });
    }
  } else if (given.device_margins) {
    for (const [name, { sentence, left, soft }] of Object.entries(given.device_margins)) found.push({ name, title: name.replaceAll("_", " "), sentence, left, soft });
  }
  const capacity = given.harness.max_shoulder_moment;
  if (capacity !== null) {
    found.push({ name: "shoulder", title: "moment at the shoulder", sentence: "Held straight out.",
      left: formulas.pull_margin(formulas.share_asked(run.length.shoulder_moment_nm, capacity)) });
  }
  return found;
}

const exceeded = ({ left, soft = false }) => !soft && left < -1e-12;

function limitRow({ title, sentence, left, soft }, other) {
  const words = (share) => (share === undefined ? "\u2013" : Number.isFinite(share) ? withUnit(100 * share, "%", 0) : "none");
  const over = left < -1e-12;
  return el("tr", { class: over ? (soft ? "limit-tires" : "limit-over") : null },
    el("th", { scope: "row" }, title, el("span", { class: "measure-sentence" }, sentence)),
    el("td", {}, over ? (soft ? `${words(left)}, tires` : `${words(left)}, beyond`) : words(left)), el("td", {}, words(other?.left)));
}

/* The state as one sentence. */
function verdictWords({ good, model }, limits) {
  const over = limits.filter(exceeded);
  const soft = limits.filter(({ soft: gentle, left }) => gentle && left < 0);
  if (over.length > 0) return `Beyond a limit: ${over.map(({ title }) => title).join(", ")}.`;
  if (limits.length === 0) return "No limit of this wearer was measured.";
  const what = model.lifts ? "lifting" : "working the device";
  const opens = good.lift?.measures.opens_while_lifting ? " But the device works while the forearm is lifted." : "";
  return `${soft.length > 0 ? `Within the limits, but ${what} tires.` : `Within the limits, and ${what} does not tire.`}${opens}`;
}

/* Which limit binds, or comes first. */
function bindingWords(limits) {
  const hard = limits.filter(({ soft }) => !soft);
  if (hard.length === 0) return "";
  const nearest = hard.reduce((a, b) => (b.left < a.left ? b : a));
  if (!Number.isFinite(nearest.left)) return "The elbow's axis binds: no pull can lift through it.";
  const size = withUnit(100 * Math.abs(nearest.left), "%", 0);
  return exceeded(nearest) ? `What binds most is the ${nearest.title}: beyond the limit by ${size} of it.`
    : `What would bind first is the ${nearest.title}: ${size} of it is left.`;
}

const LEDGER = [
  ["cable", "put into the cable at the harness", 1],
  ["spring", "given by the lift assist", 1],
  ["load", "gained by forearm, device and load", -1],
  ["housing", "lost in the housing", -1],
  ["surplus", "braked, where the assist lifts alone", -1],
];

/* The ledger of one lift. Returns {node, draw(state)}. */
function armLedger() {
  const body = el("tbody");
  const node = el("section", { class: "panel", "aria-label": "Ledger of work" },
    el("h2", {}, "Where the work of one lift goes"),
    el("table", { class: "ledger" }, el("caption", { class: "unseen" }, "Ledger of work, in joules"),
      el("thead", {}, el("tr", {}, ["what", "now [J]", "held [J]"].map((words) => el("th", { scope: "col" }, words)))), body));
  const cell = (value) => el("td", {}, shownNumber(value, 3));
  return {
    node,
    draw: ({ good, heldRun }) => {
      const [now, held] = [good.lift.ledger, heldRun?.lift?.ledger];
      const rows = LEDGER.filter(([name]) => name === "cable" || now[name] !== 0 || (held?.[name] ?? 0) !== 0);
      refill(body,
        rows.map(([name, words, sign]) => el("tr", { "data-ledger": name }, el("th", { scope: "row" }, words), cell(sign * now[name]), cell(sign * (held?.[name] ?? NaN)))),
        el("tr", {}, el("th", { scope: "row" }, "left unexplained"),
          el("td", {}, withUnit(now.error, "%", 3)), el("td", {}, withUnit(held?.error ?? NaN, "%", 3))));
    },
  };
}

/* Cautions that depend on the setting. */
function armWarnings({ model, good, setting }) {
  const { cautions, cable, limits, device } = model.given;
  if (!good?.lift) return [];
  const { measures, ledger } = good.lift;
  const found = [];
  if (measures.opens_while_lifting) {
    found.push(cautions.opens.replace("{place}", `this place of the loop, ${setting.loop_mm.toFixed(0)} mm,`).replace("{verb}", cable.device_action));
  }
  if (ledger.surplus > limits.least_surplus) found.push(cautions.surplus);
  if (measures.fatigue_free && device && !device.fatigue_free) found.push(cautions.device_tires);
  if (measures.fatigue_free) found.push(cautions.tiring);
  return found;
}
