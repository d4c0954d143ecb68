/* Bars on a pivot: the pole at the pond, the lid of the sandbox, the bin with the pedal. */

SCENES["lever-first"] = {
  view: [-0.9, -0.3, 3.9, 2.0],
  at: (fork) => [fork, 0.95],
  setting: ([x]) => x,
  draw(stage, fork, now, shown, given, told) {
    const pivot = [fork, 0.95];
    const turn = Math.asin(given.rise / 2 / fork);
    const pole = (angle) => [around(pivot, -fork, angle), around(pivot, given.pole - fork, angle)];
    const before = pole(shown ? turn : 0);
    const [can, hand] = pole(shown ? -turn : 0);
    stage.line([[-0.9, 0], [3.9, 0]], "ground");
    stage.shape([[2.9, -0.01], [3.5, -0.01], [3.42, -0.14], [2.98, -0.14]], "soft");
    stage.line([[fork, 0], [fork, 0.8]], "thick");
    stage.line([[fork - 0.09, 1.0], [fork, 0.82], [fork + 0.09, 1.0]], "thick");
    if (shown) {
      stage.shape(barShape(before[0], before[1], 0.06), "ghost");
      wateringCan(stage, before[0], "ghost");
    }
    stage.shape(barShape(can, hand, 0.06));
    wateringCan(stage, can, "solid");
    if (!shown) stage.words([can[0], can[1] + 0.24], "10 kg", "", "middle");
    if (!shown) stage.words([hand[0], hand[1] + 0.24], "you push here", "", "end");
    if (shown) {
      stage.force([can[0], can[1] - 0.36 - now.load * 0.35 / stage.scale], [0, -1], now.load, 0.35, "load");
      stage.force([hand[0], hand[1] + 0.03], [0, -1], now.effort, 0.35, "effort");
      stage.span([-0.24, before[0][1]], [-0.24, can[1]], told("load_travel", now), "load", "start");
      stage.span([3.12, before[1][1]], [3.12, hand[1]], told("effort_travel", now), "effort", "end");
      stage.words([can[0] + 0.12, can[1] - 0.54], told("load", now), "load", "start");
      stage.words([hand[0] - 0.06, hand[1] + Math.max(0.3, now.effort * 0.25 / stage.scale)], told("effort", now), "effort", "end");
    }
    stage.bars(0.5, "50 cm", shown ? 100 : 0, 0.35);
  },
};

function wateringCan(stage, [x, y], look) {
  const top = y - 0.12;
  stage.line([[x, y], [x, top]], look === "ghost" ? "ghost" : "rope");
  stage.shape([[x - 0.13, top - 0.26], [x + 0.09, top - 0.26], [x + 0.09, top - 0.03], [x - 0.13, top - 0.03]], look);
  stage.line([[x + 0.09, top - 0.2], [x + 0.24, top - 0.02]], look === "ghost" ? "ghost" : "ink");
  stage.line([[x - 0.1, top - 0.03], [x, top], [x + 0.07, top - 0.03]], look === "ghost" ? "ghost" : "ink");
}

SCENES["lever-second"] = {
  view: [-0.3, -0.12, 1.6, 1.12],
  at: (place, given, shown) => around(around([0, 0.36], place, shown ? given.angle : 0), 0.075, (shown ? given.angle : 0) + Math.PI / 2),
  setting: ([x, y], given, shown) => (shown ? x * Math.cos(given.angle) + (y - 0.36) * Math.sin(given.angle) : x),
  draw(stage, place, now, shown, given, told) {
    const hinge = [0, 0.36];
    const angle = shown ? given.angle : 0;
    const end = around(hinge, given.lid, angle);
    stage.line([[-0.3, 0], [1.6, 0]], "ground");
    stage.shape(boxShape(0, 0, 1.18, 0.34), "paper");
    stage.shape([[0.03, 0.02], [1.15, 0.02], [1.15, 0.24], [0.8, 0.27], [0.4, 0.23], [0.03, 0.27]], "soft");
    if (shown) {
      stage.shape(barShape(hinge, [given.lid, 0.36], 0.03), "ghost");
      sandSack(stage, [place, 0.36], 0, "ghost");
    }
    stage.shape(barShape(hinge, end, 0.03));
    const middle = around(hinge, place, angle);
    sandSack(stage, middle, angle, "solid");
    stage.disc(hinge, 0.022, "dark");
    if (!shown) {
      stage.words([given.lid + 0.03, 0.4], "your hand", "", "start");
      stage.words([-0.03, 0.4], "hinge", "", "end");
      return stage.bars(0.2, "20 cm");
    }
    stage.force([middle[0], middle[1] - 0.02 - now.load * 0.5 / stage.scale], [0, -1], now.load, 0.5, "load");
    stage.words([middle[0] + 0.03, middle[1] - now.load * 0.5 / stage.scale], told("load", now), "load", "start");
    stage.force([end[0], end[1] - 0.03], [0, 1], now.effort, 0.5, "effort");
    stage.words([end[0] + 0.04, end[1] - 0.14], told("effort", now), "effort", "start");
    stage.force([-0.05, 0.36], [0, 1], now.hinge, 0.5, "");
    stage.words([-0.09, 0.25], told("hinge", now), "", "end");
    stage.span([1.4, 0.36], [1.4, end[1]], told("effort_travel", now), "effort", "end");
    stage.span([middle[0] - 0.2, 0.36], [middle[0] - 0.2, middle[1]], told("load_travel", now), "load", "start");
    stage.bars(0.2, "20 cm", 100, 0.5);
  },
};

function sandSack(stage, at, angle, look) {
  const corner = (along, over) => around(around(at, along, angle), over, angle + Math.PI / 2);
  stage.shape([corner(-0.12, 0.02), corner(0.12, 0.02), corner(0.14, 0.08), corner(0.08, 0.14), corner(-0.08, 0.14), corner(-0.14, 0.08)], look);
}

SCENES["lever-third"] = {
  view: [-0.24, 0.11, 0.66, 0.79],
  at: (rod, given, shown) => [shown ? rod * Math.cos(given.angle) : rod, 0.27],
  setting: ([x], given, shown) => (shown ? x / Math.cos(given.angle) : x),
  draw(stage, rod, now, shown, given, told) {
    const hinge = [0, 0.45];
    const angle = shown ? given.angle : 0;
    const at = (far, turn = angle) => around(hinge, far, turn);
    stage.line([[-0.24, 0.165], [0.66, 0.165]], "ground");
    stage.line([[0.0, 0.17], [0.0, 0.44]], "ink");
    stage.line([[0.37, 0.17], [0.37, 0.44]], "ink");
    if (shown) {
      stage.shape(barShape(hinge, at(0.37, 0), 0.012), "ghost");
      onionBag(stage, at(given.bag, 0), 0, "ghost");
    }
    stage.line([[at(rod)[0], 0.17], at(rod)], "thick");
    stage.shape(barShape(hinge, at(0.37), 0.012));
    onionBag(stage, at(given.bag), angle, "solid");
    stage.disc(hinge, 0.01, "dark");
    stage.words([-0.02, 0.42], "hinge", "", "end");
    if (!shown) {
      stage.words([given.bag, 0.57], "onions, 1.2 kg", "", "middle");
      stage.words([rod + 0.03, 0.2], "rod", "", "start");
      return stage.bars(0.1, "10 cm");
    }
    const bag = at(given.bag);
    stage.force([at(rod)[0] + 0.025, at(rod)[1]], [0, 1], now.effort, 1, "effort");
    stage.words([at(rod)[0] + 0.04, 0.36], told("effort", now), "effort", "start");
    stage.force([bag[0] + 0.07, bag[1] - now.load / stage.scale], [0, -1], now.load, 1, "load");
    stage.words([bag[0] + 0.09, bag[1] - 0.01], told("load", now), "load", "start");
    stage.span([0.5, 0.45], [0.5, bag[1]], told("load_travel", now), "load", "end");
    stage.span([-0.09, 0.45], [-0.09, at(rod)[1]], told("effort_travel", now), "effort", "start");
    stage.bars(0.1, "10 cm", 50, 1);
  },
};

function onionBag(stage, at, angle, look) {
  const corner = (along, over) => around(around(at, along, angle), over, angle + Math.PI / 2);
  stage.shape([corner(-0.05, 0.008), corner(0.05, 0.008), corner(0.055, 0.05), corner(0.012, 0.085), corner(-0.012, 0.085), corner(-0.055, 0.05)], look);
}
