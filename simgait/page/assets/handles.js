/* Handles in a drawing that are dragged by mouse, touch or pen, or moved by keys. */

/* A handle. asked: {label, unit, low, high, step, decimals?, coarse?, glyph (an SVG path about 0 0),
   value(), along() (the direction on the drawing, y down, as a unit vector, in which it grows), perUnit
   (how far on the drawing one unit of the value goes, in drawing units), gear (times the pointer must go
   farther), toDrawing(event) -> [x, y]}. move(value) follows; done() when it rests.
   Returns {node, place([x, y], turn), show()}. */
function dragHandle(asked, move, done = () => {}) {
  const settled = { coarse: 5, gear: 4, decimals: tickDecimals(asked.step), ...asked };
  const node = svg("g", {
    class: "handle", tabindex: 0, role: "slider", "aria-label": settled.label,
    "aria-valuemin": settled.low, "aria-valuemax": settled.high,
  },
  svg("circle", { class: "handle-reach", r: 22 }),
  svg("circle", { class: "handle-disc", r: 13 }),
  svg("path", { class: "handle-glyph", d: settled.glyph }));
  hearPointer(node, settled, move, done);
  node.addEventListener("keydown", (event) => {
    const steps = stepsOfKey(event, settled.coarse);
    if (steps === null) return;
    event.preventDefault();
    const { low, high, step } = settled;
    move(Number.isFinite(steps) ? onGrid(settled.value() + steps * step, low, high, step) : steps > 0 ? high : low);
    done();
  });
  return {
    node,
    place: ([x, y], turn = 0) => setAttributes(node, {
      transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn.toFixed(1)})` }),
    show: () => setAttributes(node, {
      "aria-valuenow": settled.value(),
      "aria-valuetext": `${spokenNumber(settled.value(), settled.decimals)} ${spokenUnit(settled.unit)}` }),
  };
}

function hearPointer(node, { low, high, step, gear, perUnit, value, along, toDrawing }, move, done) {
  let held = null;
  node.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    held = { pointer: event.pointerId, from: toDrawing(event), value: value(), along: along() };
    node.setPointerCapture(event.pointerId);
    node.classList.add("handle-held");
    node.focus({ preventScroll: true });
    event.preventDefault();
  });
  node.addEventListener("pointermove", (event) => {
    if (held === null || event.pointerId !== held.pointer) return;
    const [x, y] = toDrawing(event);
    const went = (x - held.from[0]) * held.along[0] + (y - held.from[1]) * held.along[1];
    move(onGrid(held.value + went / (perUnit() * gear), low, high, step));
  });
  const release = (event) => {
    if (held === null || event.pointerId !== held.pointer) return;
    held = null;
    node.classList.remove("handle-held");
    done();
  };
  for (const name of ["pointerup", "pointercancel", "lostpointercapture"]) node.addEventListener(name, release);
}

/* What turns a pointer event into a place on an SVG drawing. */
function placeOnDrawing(drawing) {
  return (event) => {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
    return [point.x, point.y];
  };
}
