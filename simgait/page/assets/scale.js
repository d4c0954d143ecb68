/* From quantities to places on a drawing: round ticks, and straight maps. */

/* Round marks that cover low to high: about `count` of them, with the step between. */
function roundTicks(low, high, count = 4) {
  const span = high > low ? high - low : Math.abs(high) || 1;
  const rough = span / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 2.5, 5, 10].find((size) => size * power >= rough * 0.999) ?? 10);
  const first = Math.floor(low / step + 1e-9);
  const last = Math.max(Math.ceil(high / step - 1e-9), first + 1);
  const ticks = [];
  for (let i = first; i <= last; i += 1) ticks.push(i * step);
  return { ticks, step, low: first * step, high: last * step };
}

/* Decimals needed to tell marks of a step apart. */
function tickDecimals(step) {
  for (let decimals = 0; decimals < 6; decimals += 1) {
    if (Math.abs(step * 10 ** decimals - Math.round(step * 10 ** decimals)) < 1e-6) return decimals;
  }
  return 6;
}

/* The straight map that takes `from` = [low, high] to `to` = [low, high]. */
function straightMap([low, high], [start, end]) {
  const scale = (end - start) / (high - low || 1);
  return (value) => start + (value - low) * scale;
}

/* Least and largest finite value of several rows; [0, 0] where there is none. */
function spanOf(rows) {
  let low = Infinity;
  let high = -Infinity;
  for (const row of rows) {
    for (const value of row) {
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return low <= high ? [low, high] : [0, 0];
}

/* Value of a row y at x, linear between the places xs (rising), held for one interval after the last;
   NaN outside of them. */
function valueAt(xs, y, x) {
  const last = xs.length - 1;
  const beyond = last > 0 ? xs[last] - xs[last - 1] : 0;
  if (last < 0 || !(x >= xs[0] - 1e-9 && x <= xs[last] + beyond + 1e-9)) return NaN;
  const after = Math.min(Math.max(firstAtLeast(xs, x), 1), last);
  const share = last === 0 ? 0 : (x - xs[after - 1]) / (xs[after] - xs[after - 1] || 1);
  return last === 0 ? y[0] : y[after - 1] + Math.min(Math.max(share, 0), 1) * (y[after] - y[after - 1]);
}

/* Index of the first of the rising values that is at least x; the length if none is. */
function firstAtLeast(values, x) {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] < x) low = middle + 1;
    else high = middle;
  }
  return low;
}

/* The path of a curve, broken where a value is missing; at most about `most` points of it. */
function curvePath(xs, ys, mapX, mapY, most = 240) {
  const stride = Math.max(1, Math.floor(xs.length / most));
  let path = "";
  let pen = "M";
  for (let i = 0; i < xs.length; i += 1) {
    if (i % stride !== 0 && i !== xs.length - 1) continue;
    if (!Number.isFinite(ys[i])) { pen = "M"; continue; }
    path += `${pen}${mapX(xs[i]).toFixed(1)} ${mapY(ys[i]).toFixed(1)}`;
    pen = "L";
  }
  return path;
}
