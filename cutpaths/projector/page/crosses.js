/** The target's crosses, in pixels: the same as `Rig.crosses` in `projector/rig.py`. */

const LINE_SLACK = 0.01; // of the longest side: three crosses count as on one line

/** Middles of all crosses, number 1 first, row by row from the upper left. */
export function crossesOf({ width, height, columns, rows, inset }) {
  const xs = spread(width, columns, inset);
  const ys = spread(height, rows, inset);
  return ys.flatMap((y) => xs.map((x) => [x, y]));
}

/** The inset where nothing else is asked. */
export function usualInset(width, height) {
  return Math.max(1, Math.floor(Math.min(width, height) / 16));
}

/** Numbers of the four corner crosses, round the picture from the upper left. */
export function outer({ columns, rows }) {
  const last = columns * rows;
  return [1, columns, last, last - columns + 1];
}

/** What to measure first: the sides, then the diagonals. */
export function firstPairs(rig) {
  const [a, b, c, d] = outer(rig);
  return [[a, b], [b, c], [d, c], [a, d], [a, c], [b, d]];
}

/** The first three points on a line where no four have no three of them on one; else null. */
export function aligned(points) {
  const line = (...trio) => onALine(...trio.map((n) => points[n]));
  const all = points.map((_, n) => n);
  const trios = combinations(all, 3);
  const good = (four) => combinations(four, 3).every((trio) => !line(...trio));
  if (combinations(all, 4, good).length) return null;
  return trios.find((trio) => line(...trio)) ?? null;
}

/** All ways to take `count` of some things, in order; only the first that passes a test, if any. */
function combinations(things, count, passes) {
  const found = [];
  const extend = (taken, from) => {
    if (passes && found.length) return;
    if (taken.length === count) {
      if (!passes || passes(taken)) found.push(taken);
      return;
    }
    for (let n = from; n < things.length; n += 1) extend([...taken, things[n]], n + 1);
  };
  extend([], 0);
  return found;
}

function onALine(p, q, r) {
  const [u, v, w] = [[p, q], [p, r], [q, r]].map(([s, t]) => [t[0] - s[0], t[1] - s[1]]);
  const longest = Math.max(...[u, v, w].flat().map(Math.abs));
  return Math.abs(u[0] * v[1] - u[1] * v[0]) <= LINE_SLACK * longest * longest;
}

function spread(size, count, inset) {
  const step = (size - 2 * inset) / (count - 1);
  return Array.from({ length: count }, (_, n) =>
    Math.min(size - 1, Math.floor(inset + step * n)) + 0.5);
}
