/* Handles on the arm, and the stretch of the forearm on which the loop fits this wearer. */

const RAIL = 40; // from the line of the forearm to the rail on which the loop is judged, in the drawing
const ALONG = "M-8 0H8M-8 0l4 -4M-8 0l4 4M8 0l-4 -4M8 0l-4 4";

/* Handles for some settings in one drawing. names: of "loop", "guide", "length"; pose(): as drawn.
   Returns {node, show(pose)}. */
function armHandles(drawing, view, model, names, { value, move, done, pose }) {
  const toDrawing = placeOnDrawing(drawing);
  const kinds = {
    loop: { name: "loop_mm", label: "Loop of the cable on the forearm", along: () => foreAxis(pose()), gear: 1 },
    guide: { name: "guide_mm", label: "Guide of the cable on the upper arm", along: () => upperAxis(pose()).map((part) => -part), gear: 1 },
    length: { name: "forearm_change_mm", label: "Length of the forearm", along: () => foreAxis(pose()), gear: 1 },
  };
  const handles = Object.fromEntries(names.map((kind) => {
    const { name, label, along, gear } = kinds[kind];
    const [low, high, step] = model.ranges[name];
    const asked = { label, unit: "mm", low, high, step, decimals: 0, gear, glyph: ALONG, along, perUnit: () => 1, toDrawing, value: () => value(name) };
    return [kind, dragHandle(asked, (next) => move(name, next), done)];
  }));
  const node = svg("g", { class: "handles screen-only" }, Object.values(handles).map((one) => one.node));
  return { node, show: (now) => now && placeArmHandles(view, handles, now, value) };
}

/* Along the forearm and along the upper arm, on a drawing whose y goes down. */
function foreAxis({ elbow, tip }) {
  return axisOf(elbow, tip);
}

function upperAxis({ elbow }) {
  return axisOf([0, 0], elbow);
}

function axisOf(a, b) {
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return [(b[0] - a[0]) / size, -(b[1] - a[1]) / size];
}

/* The place on the upper arm's line that is so far above the elbow [mm]. */
function onUpper({ elbow }, guide) {
  const size = Math.hypot(...elbow) || 1;
  return elbow.map((part) => part * (1 - guide / MM / size));
}

/* Handles stand beside what they move, on the side to which the elbow does not bend. */
function placeArmHandles(view, handles, pose, values) {
  const degrees = ([x, y]) => (Math.atan2(y, x) * 180) / Math.PI;
  const [fore, upper] = [foreAxis(pose), upperAxis(pose)];
  const unit = view.unit ?? 1;
  const beside = (point, [x, y], out) => {
    const [px, py] = view.place(point);
    return [px - y * out, py + x * out];
  };
  const rail = RAIL + 8 * unit + 26 * unit;
  const onLine = (loop) => pose.elbow.map((part, i) => part + (loop / MM) * [fore[0], -fore[1]][i]);
  handles.loop?.place(beside(onLine(values("loop_mm")), fore, rail), degrees(fore));
  handles.guide?.place(beside(onUpper(pose, values("guide_mm")), upper, ARM_WIDTHS.upper + 18 * unit), degrees(upper));
  handles.length?.place(beside(pose.shellEnd, fore, -ARM_WIDTHS.wrist - 22 * unit), degrees(fore));
  for (const handle of Object.values(handles)) handle.show();
}

/* The forearm's line in stretches, by how the loop would fit there. Returns {node, draw(pose, rows)}. */
function fittingStrip(view) {
  const kinds = ["beyond", "fits", "easy"];
  const paths = Object.fromEntries(kinds.map((kind) => [kind, svg("path", { class: `arm-strip arm-strip-${kind}` })]));
  const node = svg("g", { class: "arm-strips", "aria-hidden": "true" }, Object.values(paths));
  return { node, draw: (pose, rows) => drawStrip(view, node, paths, pose, rows) };
}

function drawStrip(view, node, paths, pose, rows) {
  node.classList.toggle("absent", !pose?.loop || rows.length === 0);
  if (!pose?.loop || rows.length === 0) return;
  const [x, y] = foreAxis(pose);
  const [ex, ey] = view.place(pose.elbow);
  const out = (view.unit ?? 1) * 8 + RAIL;
  const point = (loop) => [ex + x * loop - y * out, ey + y * loop + x * out];
  const found = { beyond: "", fits: "", easy: "" };
  for (const { kind, from, to } of stretches(rows)) found[kind] += polyline([point(from), point(to)]);
  for (const [kind, path] of Object.entries(paths)) path.setAttribute("d", found[kind]);
}

/* How a place of the loop does: "easy", "fits" or "beyond". */
function fitKind({ feasible, fatigue_free: easy }) {
  return easy ? "easy" : feasible ? "fits" : "beyond";
}

/* Neighbouring rows of one kind as one stretch [mm]; each row reaches half way to its neighbours. */
function stretches(rows) {
  const found = [];
  rows.forEach(({ loop_mm: loop, measures }, i) => {
    const kind = fitKind(measures);
    const from = i === 0 ? loop : (rows[i - 1].loop_mm + loop) / 2;
    const to = i === rows.length - 1 ? loop : (rows[i + 1].loop_mm + loop) / 2;
    const last = found[found.length - 1];
    if (last?.kind === kind) last.to = to;
    else found.push({ kind, from, to });
  });
  return found;
}

/* Where the loop fits, in words. */
function stripWords(rows) {
  const spans = (kinds) => {
    const wide = stretches(rows.map((row) => ({ ...row, measures: { feasible: kinds(row.measures), fatigue_free: false } })))
      .filter(({ kind }) => kind === "fits");
    return wide.map(({ from, to }) => (to - from < 1.5 ? `${from.toFixed(0)} mm` : `${Math.ceil(from)} to ${Math.floor(to)} mm`)).join(" and ");
  };
  const [fits, easy] = [spans((each) => each.feasible), spans((each) => each.fatigue_free)];
  if (!fits) return "With this guide, length and load no place of the loop keeps within this wearer's pull and travel.";
  return `Loop within this wearer's pull and travel: ${fits}${easy ? `; lifting does not tire: ${easy}` : "; lifting tires at all of these"}.`;
}
