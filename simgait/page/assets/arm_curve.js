/* Rows of numbers and curves through measured points: the glue about the formulas of the arm.
   Every formula is a function of `formulas`, translated from the very lines that Python runs. */

/* count numbers from low to high, both ends exact. */
function spread(low, high, count) {
  const step = (high - low) / (count - 1);
  return Float64Array.from({ length: count }, (_, i) => (i === count - 1 ? high : low + i * step));
}

/* The integral of a row over another by the trapezoidal rule. */
function trapezoid(values, places) {
  let sum = 0;
  for (let i = 1; i < places.length; i += 1) sum += ((values[i] + values[i - 1]) / 2) * (places[i] - places[i - 1]);
  return sum;
}

/* The greatest of a row and where it is; NaN if one is none. */
function greatest(row) {
  let most = -Infinity;
  let place = 0;
  for (let i = 0; i < row.length; i += 1) {
    if (Number.isNaN(row[i])) return { most: NaN, place: i };
    if (row[i] > most) { most = row[i]; place = i; }
  }
  return { most, place };
}

/* The monotone curve through points, level beyond them; one point makes a constant. */
function monotoneCurve(places, values) {
  const slopes = pointSlopes(places, values);
  const last = places.length - 1;
  function at(where) {
    if (last === 0) return values[0];
    const inside = Math.min(Math.max(where, places[0]), places[last]);
    let k = 0;
    while (k < last - 1 && places[k + 1] <= inside) k += 1;
    const width = places[k + 1] - places[k];
    return formulas.cubic_between((inside - places[k]) / width, width, values[k], values[k + 1], slopes[k], slopes[k + 1]);
  }
  function integral(low, high) {
    const cuts = [low, ...places.filter((place) => low < place && place < high), high];
    let total = 0;
    for (let i = 1; i < cuts.length; i += 1) {
      const [a, b] = [cuts[i - 1], cuts[i]];
      total += formulas.simpson(b - a, at(a), at(0.5 * (a + b)), at(b));
    }
    return total;
  }
  return { at, integral };
}

function pointSlopes(places, values) {
  const widths = places.slice(1).map((place, k) => place - places[k]);
  const chords = widths.map((width, k) => (values[k + 1] - values[k]) / width);
  const count = chords.length;
  if (count < 2) return Array(count + 1).fill(count ? chords[0] : 0);
  const inner = chords.slice(1).map((chord, k) => formulas.inner_slope(widths[k], widths[k + 1], chords[k], chord));
  const start = formulas.end_slope(widths[0], widths[1], chords[0], chords[1]);
  const end = formulas.end_slope(widths[count - 1], widths[count - 2], chords[count - 1], chords[count - 2]);
  return [start, ...inner, end];
}
