/* Hoists: the basket on its strands, and the painted forest on its gears. */

const PEG = (count) => [0.75 + 0.4 * count, 3.3];

SCENES["pulley-block"] = {
  view: [-1.2, -0.3, 4.85, 3.65],
  at: (strands) => PEG(strands),
  setting: ([x]) => (x - 0.75) / 0.4,
  draw(stage, strands, now, shown, given, told) {
    const count = Math.round(strands);
    const low = 1.35 + (shown ? given.rise : 0);
    const width = 0.1 * Math.max(count, 2) + 0.06;
    const hand = [width / 2 + 0.3, 1.25]; // under the last pulley of the branch's block: its rope hangs upright
    stage.line([[-1.2, 0], [4.85, 0]], "ground");
    stage.shape(boxShape(-1.2, 2.95, 4.2, 3.12));
    for (let peg = 1; peg <= 6; peg += 1) {
      stage.disc(PEG(peg), 0.03, "dark");
      stage.words(PEG(peg), String(peg), "quiet", "middle", 1.1);
    }
    if (shown) basketBlock(stage, 1.35, width, "ghost");
    for (let i = 0; i < count; i += 1) {
      const x = (i - (count - 1) / 2) * 0.1;
      stage.line([[x, 2.78], [x, low + 0.02]], "rope");
    }
    stage.shape(boxShape(-width / 2, 2.7, hand[0] + 0.06, 2.86));
    stage.line([[hand[0] / 2, 2.86], [hand[0] / 2, 2.95]], "thick");
    basketBlock(stage, low, width, "solid");
    stage.line([[hand[0], 2.7], hand], "rope");
    stage.disc([hand[0], hand[1]], 0.06, "paper");
    stage.line([hand, [hand[0], 0.04], [1.05, 0.04]], "rope");
    if (!shown) {
      stage.words([-0.45, 0.85], "12 kg", "", "end");
      stage.words([hand[0] + 0.15, 1.2], "you pull down here", "", "start");
      return stage.bars(0.5, "50 cm");
    }
    stage.line([[1.05, 0.04], [1.05 + now.effort_travel, 0.04]], "effort");
    stage.span([1.05, 0.2], [1.05 + now.effort_travel, 0.2], `rope pulled: ${told("effort_travel", now)}`, "effort", "over");
    stage.force([hand[0], hand[1] - 0.1 - now.effort * 0.6 / stage.scale], [0, -1], now.effort, 0.6, "effort");
    stage.words([hand[0] + 0.13, 1.1], told("effort", now), "effort", "start");
    stage.force([0, low - 0.62 - now.load * 0.6 / stage.scale], [0, -1], now.load, 0.6, "load");
    stage.words([-0.32, low - 0.85], told("load", now), "load", "end");
    stage.span([-0.55, 1.35], [-0.55, low], told("load_travel", now), "load", "start");
    stage.words([-0.15, 3.2], `branch: ${told("branch", now)}`, "", "middle");
    stage.bars(0.5, "50 cm", 100, 0.6);
  },
};

/* The lower block with the basket under it; `low` is the block's height. */
function basketBlock(stage, low, width, look) {
  stage.shape(boxShape(-width / 2, low - 0.12, width / 2, low + 0.04), look);
  stage.line([[0, low - 0.12], [-0.22, low - 0.34]], look === "ghost" ? "ghost" : "ink");
  stage.line([[0, low - 0.12], [0.22, low - 0.34]], look === "ghost" ? "ghost" : "ink");
  stage.shape([[-0.25, low - 0.34], [0.25, low - 0.34], [0.18, low - 0.6], [-0.18, low - 0.6]], look);
}

const TOOTH = 0.004; // [m] of a gear's radius for each tooth
const DRUM_AT = [0.22, 0];

SCENES["wheel-and-gears"] = {
  view: [-0.5, -0.31, 0.74, 0.44],
  at: (teeth) => around(DRUM_AT, teeth * TOOTH, -0.75),
  setting: ([x, y]) => Math.hypot(x - DRUM_AT[0], y - DRUM_AT[1]) / TOOTH,
  draw(stage, teeth, now, shown, given, told) {
    const big = teeth * TOOTH;
    const small = given.pinion * TOOTH;
    const axis = [DRUM_AT[0] - big - small, 0];
    gear(stage, DRUM_AT, teeth, Math.PI - Math.PI / teeth, "solid");
    stage.disc(DRUM_AT, given.drum, "paper");
    stage.disc(DRUM_AT, 0.008, "dark");
    const rope = DRUM_AT[0] + given.drum;
    stage.line([[rope, 0], [rope, 0.44]], "rope");
    gear(stage, axis, given.pinion, 0, "paper");
    const hand = around(axis, given.crank, 2.2);
    stage.shape(barShape(axis, hand, 0.022));
    stage.disc(axis, 0.008, "dark");
    stage.disc(hand, 0.018, "solid");
    stage.words([DRUM_AT[0], -big - 0.02], `${teeth} teeth`, "", "middle", -1.4);
    stage.words([axis[0] - small - 0.015, -0.01], `${given.pinion} teeth`, "", "end");
    stage.words([rope + 0.015, 0.41], "to the forest, 40 kg", "", "start");
    if (!shown) return stage.bars(0.1, "10 cm");
    const push = 2.2 + Math.PI / 2; // the small gear turns to the left, the drum to the right: its rope comes down and winds on
    stage.force(around(hand, -0.02, push), [Math.cos(push), Math.sin(push)], now.effort, 0.4, "effort");
    stage.words(around(hand, 0.05, 2.2), told("effort", now), "effort", "middle");
    stage.force([rope, 0.13 + now.load * 0.4 / stage.scale], [0, 1], now.load, 0.4, "load");
    stage.words([rope + 0.015, 0.3], told("load", now), "load", "start");
    stage.span([0.58, 0], [0.58, now.rise], told("rise", now), "load", "end");
    stage.words([0.73, 0], "in one turn", "load", "end", -1.3);
    stage.bars(0.1, "10 cm", 100, 0.4);
  },
};

/* A gear with as many teeth as it has; the gap before its first one is at the angle `first`. */
function gear(stage, middle, teeth, first, look) {
  const points = [];
  const step = (2 * Math.PI) / teeth;
  for (let tooth = 0; tooth < teeth; tooth += 1) {
    for (const [share, over] of [[0, -1], [0.25, -1], [0.35, 1], [0.65, 1], [0.75, -1]]) {
      points.push(around(middle, teeth * TOOTH + over * TOOTH * 0.9, first + (tooth + share) * step));
    }
  }
  stage.shape(points, look);
}
