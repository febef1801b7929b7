/**
 * Plane homographies as nine numbers, row by row, and rigid motions as [cos, sin, dx, dy].
 * A point is [x, y]. The same as `projector/view.py`.
 */

/** Where a homography takes a point. */
export function apply(m, [x, y]) {
  const depth = depthAt(m, [x, y]);
  return [(m[0] * x + m[1] * y + m[2]) / depth, (m[3] * x + m[4] * y + m[5]) / depth];
}

/** What a homography divides a point by: 0 on its horizon, less beyond. */
export function depthAt(m, [x, y]) {
  return m[6] * x + m[7] * y + m[8];
}

/** First n, then m. */
export function product(m, n) {
  const found = [];
  for (let row = 0; row < 9; row += 3) {
    for (let column = 0; column < 3; column += 1) {
      found.push(m[row] * n[column] + m[row + 1] * n[column + 3] + m[row + 2] * n[column + 6]);
    }
  }
  return found;
}

/** The homography back, with 1 as its last number. */
export function inverse([a, b, c, d, e, f, g, h, i]) {
  const last = a * e - b * d;
  return [
    (e * i - f * h) / last,
    (c * h - b * i) / last,
    (b * f - c * e) / last,
    (f * g - d * i) / last,
    (a * i - c * g) / last,
    (c * d - a * f) / last,
    (d * h - e * g) / last,
    (b * g - a * h) / last,
    1,
  ];
}

/** A rigid motion as a homography. */
export function motion([cos, sin, dx, dy]) {
  return [cos, -sin, dx, sin, cos, dy, 0, 0, 1];
}

/** A mirror of x about the origin. */
export const MIRROR = [-1, 0, 0, 0, 1, 0, 0, 0, 1];

/** Distance of two points. */
export function distance([x, y], [u, v]) {
  return Math.hypot(u - x, v - y);
}
