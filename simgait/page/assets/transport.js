/* Play, pause, step, slow down and scrub through something that lasts some seconds. */

const SPEEDS = [["1", "1"], ["0.5", "1/2"], ["0.25", "1/4"], ["0.1", "1/10"]];

/* asked: {label, duration() [s], step? (% of a step, 1), tell?(percent) in words}; onMove(percent) at each instant shown.
   Returns {node, percent(), set(percent), pause()}. Nothing plays unless it is asked to; where the
   reader wants stillness there is no play button, only steps and the bar. */
function transport({ label, duration, step = 1, speed = "0.25", start = 0, tell = ofStance }, onMove) {
  const state = { percent: start, rate: Number(speed), last: null };
  const bar = el("input", { type: "range", min: 0, max: 100, step: 0.5, "aria-label": `${label}, per cent` });
  const words = el("output", { class: "transport-words" });
  const show = (fromBar = false) => {
    if (!fromBar) bar.value = String(state.percent);
    const told = tell(state.percent);
    setText(words, told);
    bar.setAttribute("aria-valuetext", told);
    onMove(state.percent);
  };
  const set = (percent) => { state.percent = Math.min(Math.max(percent, 0), 100); show(); };
  const player = playing(state, duration, show);
  const jump = (by) => { player.pause(); set(Math.round(state.percent / step) * step + by * step); };
  bar.addEventListener("input", () => { player.pause(); state.percent = Number(bar.value); show(true); });
  bar.addEventListener("keydown", (event) => {
    const steps = stepsOfKey(event, 10);
    if (steps === null || !Number.isFinite(steps)) return;
    event.preventDefault();
    jump(steps);
  });
  const node = transportNode({ play: player.button, bar, words, jump, state });
  return { node, percent: () => state.percent, set, pause: player.pause };
}

/* Where a stance stands, in words; other pages tell their own. */
function ofStance(percent) {
  return `${percent.toFixed(0)}\u00a0% of stance`;
}

/* What moves a state's percent through frames. Returns {button, pause()}; the button is null where the
   reader wants stillness. */
function playing(state, duration, show) {
  const play = button("Play", () => (state.last === null ? run() : pause()), { class: "transport-play" });
  function run() {
    if (state.percent >= 100) state.percent = 0;
    state.last = performance.now();
    setText(play, "Pause");
    requestAnimationFrame(frame);
  }
  function pause() {
    state.last = null;
    setText(play, "Play");
  }
  function frame(now) {
    if (state.last === null) return;
    state.percent += (Math.max(now - state.last, 0) / 1000) * state.rate * (100 / duration());
    state.last = now;
    if (state.percent >= 100) { state.percent = 100; pause(); }
    show();
    if (state.last !== null) requestAnimationFrame(frame);
  }
  return { button: wantsStillness() ? null : play, pause };
}

function transportNode({ play, bar, words, jump, state }) {
  const speeds = choice("Speed", SPEEDS, String(state.rate), (rate) => { state.rate = Number(rate); });
  return el("div", { class: "transport screen-only" },
    el("div", { class: "transport-bar" }, bar),
    el("div", { class: "row" },
      button("\u2039", () => jump(-1), { "aria-label": "step back", class: "transport-step" }),
      play,
      button("\u203a", () => jump(1), { "aria-label": "step forward", class: "transport-step" }),
      words,
      play === null ? el("span", { class: "quiet small" }, "Moving pictures are off, as your system asks.") : speeds.node));
}
