/* The curves of a stance, with those of the held comparison. */

const CURVES = [
  { curve: "knee_flexion_moment", title: "Knee moment", unit: "N m", scale: 1, above: "bends the knee", below: "straightens it" },
  { curve: "socket_flexion_moment", title: "Socket moment", unit: "N m", scale: 1, above: "bends the knee", below: "straightens it" },
  { curve: "force_up", title: "Vertical force", unit: "N", scale: 1 },
  { curve: "force_forward", title: "Fore-aft force", unit: "N", scale: 1, above: "pushes on", below: "brakes" },
  { curve: "knee_flexion", title: "Knee flexion", unit: "deg", scale: 180 / Math.PI, above: "bent", below: "beyond straight" },
  { curve: "pressure_ahead_of_ankle", title: "Pressure point", unit: "mm", scale: 1000, above: "ahead of the ankle", below: "behind it" },
];

const MAIN_CURVES = 2; // of CURVES: shown first

/* Returns {main, others, draw(now, held), mark(percent)} for runs of the model; held may be null. */
function stanceCurves() {
  const plots = CURVES.map((asked, i) => [asked, linePlot({ ...asked, xTitle: "% of stance", paper: i < MAIN_CURVES ? 420 : 240 })]);
  const nodes = plots.map(([, plot]) => plot.node);
  const section = (words, own, extra) => el("section", { class: `curves panel ${extra}`, "aria-label": words },
    el("h2", {}, `${words} `, el("span", { class: "key-line key-now" }, "now"), el("span", { class: "key-line key-held" }, "held")),
    el("div", { class: "curves-grid" }, own));
  return {
    main: section("Through the stance", nodes.slice(0, MAIN_CURVES), "curves-main"),
    others: section("More curves", nodes.slice(MAIN_CURVES), "curves-others"),
    draw: (now, held) => {
      for (const [{ curve, scale }, plot] of plots) {
        const rows = [["now", now], ["held", held]].filter(([, run]) => run).map(([name, run]) => ({
          name, held: name === "held", x: run.percent, y: scaledRow(run, curve, scale) }));
        plot.draw(rows, [0, 100]);
      }
    },
    mark: (percent) => plots.forEach(([, plot]) => plot.mark(percent)),
  };
}

/* A curve in the unit shown, kept beside the run for the next time. */
function scaledRow(run, curve, scale) {
  if (scale === 1) return run.curves[curve];
  run.shown ??= {};
  return run.shown[curve] ??= run.curves[curve].map((value) => value * scale);
}
