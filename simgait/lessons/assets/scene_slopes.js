/* Slopes: the plank to the raised bed, and the thread of a screw, unrolled. */

const footOf = (plank, height) => [-Math.sqrt(plank * plank - height * height), 0];

SCENES.ramp = {
  view: [-4.25, -0.45, 0.75, 1.15],
  at: (plank, given) => footOf(plank, given.height),
  setting: ([x], given) => Math.hypot(x, given.height),
  draw(stage, plank, now, shown, given, told) {
    const foot = footOf(plank, given.height);
    const angle = Math.atan2(given.height, -foot[0]);
    stage.line([[-4.25, 0], [0.75, 0]], "ground");
    stage.shape(boxShape(0, 0, 0.75, given.height), "solid");
    stage.line([[0.1, 0.5], [0.15, 0.68], [0.2, 0.5], [0.3, 0.74], [0.36, 0.5], [0.5, 0.64], [0.55, 0.5]], "soft");
    stage.shape(barShape(foot, [0, given.height], 0.04), "paper");
    const from = around(foot, 0.3, angle);
    const to = around(foot, plank - 0.3, angle);
    tray(stage, from, angle, shown ? "ghost" : "solid");
    if (!shown) {
      stage.words([from[0], from[1] + 0.36], "25 kg", "", "middle");
      return stage.bars(0.5, "50 cm");
    }
    tray(stage, to, angle, "solid");
    const middle = around(to, 0.16, angle + Math.PI / 2);
    const far = now.effort * 0.25 / stage.scale;
    stage.force(around(middle, 0.2 + far, angle), [Math.cos(angle), Math.sin(angle)], now.effort, 0.25, "effort");
    stage.words(around(middle, 0.24 + far, angle), told("effort", now), "effort", "start");
    stage.force([middle[0], middle[1] - now.load * 0.25 / stage.scale], [0, -1], now.load, 0.25, "load");
    stage.words([middle[0], -0.2], told("load", now), "load", "middle");
    const beside = (spot) => around(spot, 0.5, angle + Math.PI / 2);
    stage.span(beside(foot), beside([0, given.height]), told("effort_travel", now), "effort", "over");
    stage.span([0.6, 0], [0.6, given.height], told("load_travel", now), "load", "start");
    stage.bars(0.5, "50 cm", 200, 0.25);
  },
};

function tray(stage, at, angle, look) {
  const corner = (along, over) => around(around(at, along, angle), over + 0.02, angle + Math.PI / 2);
  stage.shape([corner(-0.24, 0.06), corner(-0.21, 0), corner(0.21, 0), corner(0.24, 0.06)], look);
  stage.shape([corner(-0.18, 0.06), corner(0.18, 0.06), corner(0.2, 0.16), corner(0.1, 0.25), corner(-0.12, 0.25), corner(-0.2, 0.16)], look);
}

SCENES.screw = {
  view: [-0.034, -0.009, 0.046, 0.03],
  at: (lead, given) => [Math.PI * given.diameter, lead],
  setting: ([, y]) => y,
  draw(stage, lead, now, shown, given, told) {
    const round = Math.PI * given.diameter;
    threadedFoot(stage, -0.02, lead, given.diameter);
    stage.shape([[0, 0], [round, 0], [round, lead]], "solid");
    stage.span([0, -0.0022], [round, -0.0022], `once round: ${shownNumber(round * 1000, 1)} mm`, "", "under");
    stage.span([round + 0.0045, 0], [round + 0.0045, lead], "", "", "end");
    stage.words([round + 0.006, lead / 2], `${shownNumber(lead * 1000, 2)} mm`, "", "start", -0.35);
    stage.words([0, 0.026], "one turn, unrolled", "", "start");
    if (shown) {
      stage.line([[0, 0], [round * 1.1, round * 1.1 * given.friction]], "limit");
      stage.words([0, 0.026], "dashed: steeper runs back", "load", "start", -2.6);
      stage.force([-0.02, 0.0215], [0, -1], now.load, 0.08, "load");
      stage.words([-0.0185, 0.0275], told("load", now), "load", "start");
      stage.words([0, 0.026], `push ${told("effort", now)}, ${shownNumber(given.spanner * 100, 0)} cm out`, "effort", "start", -1.3);
    }
    stage.bars(0.005, "5 mm");
  },
};

/* The foot of the tank: a plate, the screw under it with its thread, and the nut. */
function threadedFoot(stage, x, lead, diameter) {
  const half = diameter / 2;
  stage.shape(boxShape(x - 0.011, 0.018, x + 0.011, 0.0215));
  stage.shape(boxShape(x - half, -0.004, x + half, 0.018), "paper");
  for (let y = -0.004; y + lead / 2 < 0.0178; y += Math.max(lead, 0.0005)) {
    stage.line([[x - half, y], [x + half, y + lead / 2]], "thin");
  }
  stage.shape(boxShape(x - 0.012, -0.004, x - half, 0.005));
  stage.shape(boxShape(x + half, -0.004, x + 0.012, 0.005));
}
