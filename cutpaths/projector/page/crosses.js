/** The target's crosses, in pixels: the same as `Rig.crosses` in `projector/rig.py`. */

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

/** What to measure first: the sides, then the diagonals. */
export function firstPairs({ columns, rows }) {
  const last = columns * rows;
  const [a, b, c, d] = [1, columns, last, last - columns + 1];
  return [[a, b], [b, c], [d, c], [a, d], [a, c], [b, d]];
}

function spread(size, count, inset) {
  const step = (size - 2 * inset) / (count - 1);
  return Array.from({ length: count }, (_, n) =>
    Math.min(size - 1, Math.floor(inset + step * n)) + 0.5);
}
