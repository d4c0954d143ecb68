/* A limb at one instant, as numbers: the pose between instants, the lever, and its outlines.
   Everything is in metres in the room, x forward and y up from the floor. */

const POINTS = ["hip", "knee", "brim", "socket_pivot", "limb_end", "socket_end", "ankle"];
// Half-widths as shares of the thigh's length: drawn, not measured
const WIDTHS = { thigh: 0.165, knee: 0.115, end: 0.085 };
const FORCE_LENGTH = 0.45; // [m] of the arrow of one body weight

/* The last instant before any drawn point stops being finite; -1 if there is none. */
function lastDrawable(run) {
  for (let i = 0; i < run.n; i += 1) {
    const finite = POINTS.every((name) => Number.isFinite(run.points[name].x[i] + run.points[name].y[i]));
    if (!finite || !Number.isFinite(run.sole.x[i * run.elements])) return i - 1;
  }
  return run.n - 1;
}

/* The pose of a run at a share of its own stance [%], linear between instants; null if it has none. */
function poseAt(run, percent) {
  const last = run.last ??= lastDrawable(run);
  if (last < 0) return null;
  const asked = Math.min(percent, run.percent[last]);
  const after = Math.min(Math.max(firstAtLeast(run.percent, asked), Math.min(1, last)), last);
  const before = Math.max(after - 1, 0);
  const span = run.percent[after] - run.percent[before];
  const share = span > 0 ? Math.min(Math.max((asked - run.percent[before]) / span, 0), 1) : 0;
  const pick = (row) => row[before] + share * (row[after] - row[before]);
  const pose = { percent: asked, time: pick(run.time), sole: soleAt(run, before, after, share) };
  for (const name of POINTS) pose[name] = [pick(run.points[name].x), pick(run.points[name].y)];
  pose.pressure = pick(run.pressure_x);
  pose.force = [pick(run.curves.force_forward), pick(run.curves.force_up)];
  return pose;
}

function soleAt(run, before, after, share) {
  const { x, y } = run.sole;
  const [a, b] = [before * run.elements, after * run.elements];
  return Array.from({ length: run.elements }, (_, i) => [
    x[a + i] + share * (x[b + i] - x[a + i]),
    y[a + i] + share * (y[b + i] - y[a + i]),
  ]);
}

/* The perpendicular from the knee to the force line: its foot and signed length [m], + where the line
   passes behind the knee and tends to bend it; null without a force. */
function kneeLever({ knee, pressure, force }) {
  const size = Math.hypot(force[0], force[1]);
  if (!Number.isFinite(pressure) || !(size > 0)) return null;
  const [ux, uy] = [force[0] / size, force[1] / size];
  const [rx, ry] = [knee[0] - pressure, knee[1]];
  const along = rx * ux + ry * uy;
  return { foot: [pressure + along * ux, along * uy], length: rx * uy - ry * ux, direction: [ux, uy] };
}

/* Forward and up of the prosthesis in the room. */
function prosthesisAxes({ brim, socket_end }) {
  const size = Math.hypot(brim[0] - socket_end[0], brim[1] - socket_end[1]) || 1;
  const up = [(brim[0] - socket_end[0]) / size, (brim[1] - socket_end[1]) / size];
  return { forward: [up[1], -up[0]], up };
}

/* Heel to toe as a unit vector, and how long. */
function soleLine(sole) {
  const [first, last] = [sole[0], sole[sole.length - 1]];
  const size = Math.hypot(last[0] - first[0], last[1] - first[1]) || 1;
  return { along: [(last[0] - first[0]) / size, (last[1] - first[1]) / size], size };
}

const at = ([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`;

/* A tapered bar between two places of a drawing with half-widths there, round at the end and, unless
   `open`, at the start. */
function bonePath(a, wideA, b, wideB, open = false) {
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const across = [(b[1] - a[1]) / size, -(b[0] - a[0]) / size];
  const side = (p, wide) => [p[0] + across[0] * wide, p[1] + across[1] * wide];
  const round = open ? "L" : `A${wideA} ${wideA} 0 0 0 `;
  return `M${at(side(a, wideA))}L${at(side(b, wideB))}A${wideB} ${wideB} 0 0 1 ${at(side(b, -wideB))}` +
    `L${at(side(a, -wideA))}${open ? round : `A${wideA} ${wideA} 0 0 1 `}${at(side(a, wideA))}Z`;
}

/* The wall of a cup: like a bar, but open at the start. */
function cupPath(a, wideA, b, wideB) {
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const across = [(b[1] - a[1]) / size, -(b[0] - a[0]) / size];
  const side = (p, wide) => [p[0] + across[0] * wide, p[1] + across[1] * wide];
  return `M${at(side(a, wideA))}L${at(side(b, wideB))}A${wideB} ${wideB} 0 0 1 ${at(side(b, -wideB))}L${at(side(a, -wideA))}`;
}

const polyline = (points) => `M${points.map(at).join("L")}`;

/* The foot in its shoe: outline from the sole, laid on the floor where it is pressed in, to the ankle,
   and the stretches of the sole that carry. Metres in the room. */
function footOutline(ankle, sole) {
  const { along } = soleLine(sole);
  const up = [-along[1], along[0]];
  const tall = Math.max((ankle[0] - sole[0][0]) * up[0] + (ankle[1] - sole[0][1]) * up[1], 0.03);
  const places = sole.map(([x, y]) => (x - ankle[0]) * along[0] + (y - ankle[1]) * along[1]);
  const [heel, toe] = [Math.max(-places[0], 1e-6), Math.max(places[places.length - 1], 1e-6)];
  const laid = [];
  const upper = [];
  sole.forEach(([x, y], i) => {
    const ahead = Math.min(Math.max(places[i] / toe, 0), 1);
    const behind = Math.min(Math.max(-places[i] / heel, 0), 1);
    const thick = tall * (0.92 - 0.66 * ahead ** 0.75 - 0.22 * behind);
    const raised = Math.max(-y, 0);
    laid.push([x, y + raised]);
    upper.push([x + thick * up[0], y + thick * up[1] + raised * (1 - 0.6 * Math.min(thick / tall, 1))]);
  });
  return { outline: [...laid, ...upper.reverse()], laid, contact: contactStretches(sole, laid) };
}

function contactStretches(sole, laid) {
  const stretches = [];
  for (let i = 0; i + 1 < sole.length; i += 1) {
    if (sole[i][1] < 0 && sole[i + 1][1] < 0) stretches.push([laid[i], laid[i + 1]]);
  }
  return stretches;
}
