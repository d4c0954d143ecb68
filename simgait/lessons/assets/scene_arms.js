/* Arms: the cable and its loop about an elbow, and an arm held straight out. */

SCENES["loop-on-a-forearm"] = {
  view: [-0.52, -0.4, 0.5, 0.33],
  at: (loop) => [loop, 0],
  setting: ([x]) => x,
  draw(stage, loop, now, shown, given, told) {
    const elbow = [0, 0];
    const lies = (flexion) => flexion - Math.PI / 2;
    stage.shape(barShape([0, 0], [0, 0.26], 0.075), "paper");
    stage.line([[-0.045, 0.27], [0.045, 0.25]], "soft");
    if (shown) {
      for (const flexion of [given.from, given.to]) forearm(stage, given, lies(flexion), "ghost");
    }
    forearm(stage, given, 0, "solid");
    stage.disc(elbow, 0.012, "dark");
    const guide = [0, given.guide];
    stage.line([[loop, 0], guide, [0, 0.3]], "effort");
    stage.disc(guide, 0.008, "paper");
    stage.words([-0.05, given.guide], "guide", "", "end");
    stage.words([loop, -0.05], "loop", "", "start", -0.2);
    stage.words([-0.05, -0.02], "elbow", "", "end");
    if (!shown) return stage.bars(0.1, "10 cm");
    const away = Math.hypot(loop, given.guide);
    const foot = [loop * given.guide * given.guide / (away * away), given.guide * loop * loop / (away * away)];
    stage.line([elbow, foot], "load");
    stage.words([foot[0] + 0.03, foot[1] + 0.025], `lever ${told("lever", now)}`, "load", "start");
    stage.force([0, 0.19 + now.pull * 1.4 / stage.scale], [0, 1], now.pull, 1.4, "effort");
    stage.words([0.05, 0.24], told("pull", now), "effort", "start");
    stage.force([given.centre, -now.load * 1.4 / stage.scale], [0, -1], now.load, 1.4, "load");
    stage.words([given.centre + 0.02, -0.06], told("load", now), "load", "start");
    budget(stage, given, now, told);
    stage.bars(0.1, "10 cm", 50, 1.4);
  },
};

function forearm(stage, given, lean, look) {
  const wrist = around([0, 0], given.forearm, lean);
  stage.shape(barShape([0, 0], wrist, 0.06), look === "ghost" ? "ghost" : "paper");
  const tip = around(wrist, given.tip, lean);
  stage.line([wrist, around(wrist, given.tip * 0.45, lean), around(tip, 0.025, lean + 2.2), tip], look === "ghost" ? "ghost" : "ink");
}

/* The travel that the shoulders have, what the lift took of it, and what the hook needs. */
function budget(stage, given, now, told) {
  const [left, y, times] = [-0.5, -0.25, 3];
  const wide = (length) => left + length * times;
  stage.words([left, y + 0.05], "cable that the shoulders can draw (3 times its size)", "quiet", "start", 0.2);
  stage.shape(boxShape(left, y, wide(given.limit), y + 0.03), "paper");
  stage.shape(boxShape(left, y, wide(now.effort_travel), y + 0.03), "dark");
  stage.line([[wide(given.limit - given.hook), y - 0.015], [wide(given.limit - given.hook), y + 0.04]], "limit");
  stage.words([left, y - 0.008], `lift ${told("effort_travel", now)}, left ${told("left", now)}: the hook ${told("opens", now)}`, "", "start", -1.2);
}

SCENES["arm-length"] = {
  view: [-0.28, -0.35, 0.84, 0.3],
  at: (forearmLength, given) => [given.upper + forearmLength, 0],
  setting: ([x], given) => x - given.upper,
  draw(stage, length, now, shown, given, told, start) {
    const wrist = given.upper + length;
    stage.line([[-0.02, -0.26], [-0.02, 0.06], [-0.09, 0.1], [-0.2, 0.1]], "soft");
    stage.disc([-0.16, 0.2], 0.07, "soft");
    if (shown && Math.abs(now.reach - start.reach) > 1e-9) straightArm(stage, given, given.forearm, "ghost");
    straightArm(stage, given, length, "paper");
    stage.disc([0, 0], 0.014, "dark");
    stage.disc([given.upper, 0], 0.01, "dark");
    stage.words([0, 0.07], "shoulder", "", "start");
    stage.words([given.upper, 0.07], "elbow", "", "middle");
    if (!shown) return stage.bars(0.1, "10 cm");
    const share = length / given.forearm;
    const pulls = [[given.upper_centre, "upper_weight"], [given.upper + given.shell_centre * share, "shell_weight"], [wrist + given.hook, "hook_weight"]];
    for (const [x, key] of pulls) {
      stage.force([x, -0.045 - now[key] * 9 / stage.scale], [0, -1], now[key], 9, "load");
      stage.words([x + 0.012, -0.09], told(key, now), "load", "start");
    }
    stage.span([0, -0.2], [now.reach, -0.2], `reach ${told("reach", now)}`, "", "under");
    stage.words([0.02, 0.13], `moment ${told("moment", now)}`, "effort", "start");
    stage.bars(0.1, "10 cm", 10, 9);
  },
};

function straightArm(stage, given, length, look) {
  const wrist = given.upper + length;
  const line = look === "ghost" ? "ghost" : "ink";
  stage.shape(boxShape(-given.depth * 0.2, -0.05, given.depth * 0.5, 0.05), look);
  stage.shape(barShape([0.03, 0], [given.upper, 0], 0.07), look);
  stage.shape(barShape([given.upper, 0], [wrist, 0], 0.06), look);
  stage.line([[wrist, 0], [wrist + given.tip * 0.5, 0], [wrist + given.tip * 0.85, 0.03], [wrist + given.tip, 0]], line);
}
