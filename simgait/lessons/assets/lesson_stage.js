/* The stage of a lesson: a drawing to scale in metres, y up, drawn anew at every move.
   Each scene is SCENES[name] = {view, at, setting, draw}: what it shows, where its handle is, which
   setting a place means, and the drawing itself. Scenes draw figures; they compute none. */

const SCENES = {};
const STAGE_WIDTH = 720;
const LETTER = 15; // pixels of the screen

/* A stage for a view [left, bottom, right, top] in metres. */
function lessonStage(view) {
  const [left, bottom, right, top] = view;
  const scale = STAGE_WIDTH / (right - left);
  const height = Math.round((top - bottom) * scale);
  const layer = svg("g");
  const ring = svg("g", { class: "handle" }, svg("circle", { class: "handle-reach", r: 30 }), svg("circle", { class: "handle-ring", r: 13 }), svg("circle", { class: "handle-dot", r: 3 }));
  const node = svg("svg", { class: "stage", viewBox: `0 0 ${STAGE_WIDTH} ${height}`, role: "img" }, layer, ring);
  const X = (x) => (x - left) * scale;
  const Y = (y) => (top - y) * scale;
  const put = (name, attributes, ...children) => layer.append(svg(name, attributes, ...children));
  const path = (points, closed) => points.map(([x, y], i) => `${i ? "L" : "M"}${X(x).toFixed(1)} ${Y(y).toFixed(1)}`).join("") + (closed ? "Z" : "");
  const stage = {
    node, ring, scale, view, height,
    letter: LETTER,
    clear: () => layer.replaceChildren(),
    place: ([x, y]) => ring.setAttribute("transform", `translate(${X(x).toFixed(1)} ${Y(y).toFixed(1)}) scale(${(stage.letter / LETTER).toFixed(2)})`),
    point: (event) => {
      const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(node.getScreenCTM().inverse());
      return [left + spot.x / scale, top - spot.y / scale];
    },
    line: (points, look = "ink") => put("path", { class: `draw ${look}`, d: path(points, false) }),
    shape: (points, look = "solid") => put("path", { class: `draw ${look}`, d: path(points, true) }),
    disc: ([x, y], radius, look = "solid") => put("circle", { class: `draw ${look}`, cx: X(x), cy: Y(y), r: Math.max(radius * scale, 1.5) }),
    words: (at, text, look = "", anchor = "middle", lift = 0) => stageWords(put, stage, [X(at[0]), Y(at[1]) - lift * stage.letter], text, look, anchor),
    force: (at, turn, newtons, perNewton, look) => stageArrow(put, [X(at[0]), Y(at[1])], turn, newtons * perNewton, look),
    span: (from, to, text, look = "", side = "end") => stageSpan(put, stage, [X(from[0]), Y(from[1])], [X(to[0]), Y(to[1])], text, look, side),
    bars: (metres, words, newtons = 0, perNewton = 0) => stageBars(put, stage, metres * scale, words, newtons, newtons * perNewton),
  };
  return stage;
}

/* Words, moved as far as needed to stay on the stage. */
function stageWords(put, { letter, height }, [x, y], text, look, anchor) {
  const long = text.length * letter * 0.64;
  const before = { start: 0, middle: long / 2, end: long }[anchor];
  const inside = Math.min(Math.max(x, before + 3), Math.max(STAGE_WIDTH - 3 - long + before, before + 3));
  const level = Math.min(Math.max(y, letter), height - 4);
  put("text", { class: `say ${look}`, x: inside.toFixed(1), y: level.toFixed(1), "text-anchor": anchor }, text);
}

/* An arrow of a force: its tip at a place, pointing along `turn` [x right, y up], so long in pixels. */
function stageArrow(put, [x, y], [right, up], length, look) {
  const size = Math.hypot(right, up) || 1;
  const [ux, uy] = [right / size, -up / size];
  const head = Math.min(13, Math.max(length * 0.5, 5));
  const back = Math.max(length, head + 1);
  const tail = [x - ux * back, y - uy * back];
  const neck = [x - ux * head * 0.9, y - uy * head * 0.9];
  const wing = (sign) => `${(x - ux * head - uy * sign * head * 0.5).toFixed(1)} ${(y - uy * head + ux * sign * head * 0.5).toFixed(1)}`;
  put("path", { class: `force ${look}`, d: `M${tail[0].toFixed(1)} ${tail[1].toFixed(1)}L${neck[0].toFixed(1)} ${neck[1].toFixed(1)}` });
  put("path", { class: `force-head ${look}`, d: `M${x.toFixed(1)} ${y.toFixed(1)}L${wing(1)}L${wing(-1)}Z` });
}

/* A measured way between two places, with its length in words. */
function stageSpan(put, stage, [x, y], [x2, y2], text, look, side) {
  const size = Math.hypot(x2 - x, y2 - y) || 1;
  const [nx, ny] = [(-(y2 - y) / size) * 6, ((x2 - x) / size) * 6];
  const tick = (px, py) => `M${(px - nx).toFixed(1)} ${(py - ny).toFixed(1)}L${(px + nx).toFixed(1)} ${(py + ny).toFixed(1)}`;
  put("path", { class: `span ${look}`, d: `M${x.toFixed(1)} ${y.toFixed(1)}L${x2.toFixed(1)} ${y2.toFixed(1)}${tick(x, y)}${tick(x2, y2)}` });
  const gap = stage.letter * 0.6;
  const middle = [(x + x2) / 2, (y + y2) / 2];
  const set = {
    end: [[middle[0] + gap, middle[1] + stage.letter * 0.35], "start"],
    start: [[middle[0] - gap, middle[1] + stage.letter * 0.35], "end"],
    over: [[middle[0], middle[1] - gap], "middle"],
    under: [[middle[0], middle[1] + stage.letter + gap * 0.5], "middle"],
  }[side];
  stageWords(put, stage, set[0], text, look, set[1]);
}

/* The scales of lengths and of forces, in the lower left corner. */
function stageBars(put, stage, length, words, newtons, arrow) {
  const y = stage.height - stage.letter * 0.6;
  put("path", { class: "span", d: `M10 ${y}h${length.toFixed(1)}M10 ${y - 4}v8M${(10 + length).toFixed(1)} ${y - 4}v8` });
  stageWords(put, stage, [16 + length, y + stage.letter * 0.3], words, "quiet", "start");
  if (!newtons) return;
  const start = 16 + length + stage.letter * (words.length * 0.6 + 1.5);
  stageArrow(put, [start + arrow, y], [1, 0], arrow, "scale");
  stageWords(put, stage, [start + arrow + 6, y + stage.letter * 0.3], `${newtons} N`, "quiet", "start");
}

/* A place on a circle: from a middle, so far, at an angle [rad] above the level. */
function around([x, y], far, angle) {
  return [x + far * Math.cos(angle), y + far * Math.sin(angle)];
}

/* A bar of a width between two places, as a shape. */
function barShape([x, y], [x2, y2], wide) {
  const size = Math.hypot(x2 - x, y2 - y) || 1;
  const [nx, ny] = [(-(y2 - y) / size) * wide / 2, ((x2 - x) / size) * wide / 2];
  return [[x + nx, y + ny], [x2 + nx, y2 + ny], [x2 - nx, y2 - ny], [x - nx, y - ny]];
}

/* A box by its lower left and upper right corner. */
function boxShape(x, y, x2, y2) {
  return [[x, y], [x2, y], [x2, y2], [x, y2]];
}
