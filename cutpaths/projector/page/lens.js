/** Cloth of some thickness is nearer to the lens than the table: the sums of `projector/lens.py`. */

import { solve } from "./equations.js";
import { apply, distance, inverse, product } from "./homography.js";

const ROUNDS = 60;
const AGREE_MM = 20;

/** {view} of the cloth's face for a view of the table under it, or {finding}. */
export function onCloth(view, rig, crosses) {
  if (!rig.lens || !rig.thickness) return { view };
  const { foot, finding } = footOf(view, rig, crosses);
  if (finding) return { finding };
  const part = (rig.lens.height - rig.thickness) / rig.lens.height;
  const [x, y] = foot;
  const nearer = [part, 0, x * (1 - part), 0, part, y * (1 - part), 0, 0, 1];
  const toTable = product(nearer, view.toTable);
  return { view: { toTable, toPixel: inverse(toTable) } };
}

/** {foot} of the lens on the table, or {finding}. */
function footOf(view, rig, crosses) {
  const { height, distances } = rig.lens;
  if (!distances.length) return { foot: footOfLevelLens(view, rig) };
  const spots = distances.map(([n]) => apply(view.toTable, crosses[n - 1]));
  const reaches = distances.map(([, mm]) => Math.sqrt(mm * mm - height * height));
  const foot = whereFrom(spots, reaches);
  if (!foot) {
    const problem = "must be to three crosses that are not on a line";
    return { finding: { key: "lens.distances", problem, hint: "" } };
  }
  const worst = Math.max(...spots.map((p, n) => Math.abs(distance(foot, p) - reaches[n])));
  if (worst <= AGREE_MM) return { foot };
  const problem = `disagree by ${Math.round(worst)} mm: no lens stands there`;
  const hint = "Measure them and the height again";
  return { finding: { key: "lens.distances", problem, hint } };
}

/** The point at given distances from some points, by least squares; null where they lie on a line. */
function whereFrom(spots, reaches) {
  const [[x0, y0], r0] = [spots[0], reaches[0]];
  const rows = spots.slice(1).map(([x, y]) => [2 * (x - x0), 2 * (y - y0)]);
  const right = spots.slice(1).map(([x, y], n) =>
    r0 * r0 - reaches[n + 1] ** 2 + x * x + y * y - x0 * x0 - y0 * y0);
  let at = leastOf(rows, right);
  for (let round = 0; at && round < ROUNDS; round += 1) {
    const far = spots.map((p) => Math.max(distance(at, p), 1e-9));
    const ways = spots.map(([x, y], n) => [(at[0] - x) / far[n], (at[1] - y) / far[n]]);
    const step = leastOf(ways, reaches.map((r, n) => r - far[n]));
    if (!step) return null;
    at = [at[0] + step[0], at[1] + step[1]];
    if (Math.hypot(...step) < 1e-9) break;
  }
  return at;
}

/** Two unknowns by least squares. */
function leastOf(rows, right) {
  const sum = (term) => rows.reduce((all, row, n) => all + term(row, right[n]), 0);
  const [a, b, c] = [sum(([x]) => x * x), sum(([x, y]) => x * y), sum(([, y]) => y * y)];
  if (a * c - b * b <= 1e-6 * (a + c) ** 2) return null;
  return solve([[a, b], [b, c]], [sum(([x], r) => x * r), sum(([, y], r) => y * r)]);
}

/** The foot of a lens that looks through the picture's middle, its focal length by halving. */
function footOfLevelLens(view, rig) {
  let [low, high] = [0.05 * rig.width, 50 * rig.width];
  for (let round = 0; round < ROUNDS; round += 1) {
    const middle = Math.sqrt(low * high);
    if (stand(view, rig, middle)[2] < rig.lens.height) low = middle;
    else high = middle;
  }
  return stand(view, rig, Math.sqrt(low * high)).slice(0, 2);
}

/** Where a lens of a focal length (pixels) stands: the camera whose plane is the table. */
function stand(view, { width, height }, focal) {
  const camera = [1 / focal, 0, -width / 2 / focal, 0, 1 / focal, -height / 2 / focal, 0, 0, 1];
  const m = product(camera, view.toPixel);
  const [right, up, shift] = [0, 1, 2].map((k) => [m[k], m[k + 3], m[k + 6]]);
  const [a, b] = [Math.hypot(...right), Math.hypot(...up)];
  const r1 = right.map((v) => v / a);
  const r2 = up.map((v) => v / b);
  const r3 = [
    r1[1] * r2[2] - r1[2] * r2[1], r1[2] * r2[0] - r1[0] * r2[2], r1[0] * r2[1] - r1[1] * r2[0],
  ];
  const t = shift.map((v) => v / Math.sqrt(a * b));
  const [x, y, z] = [r1, r2, r3].map((axis) => -axis.reduce((sum, v, k) => sum + v * t[k], 0));
  return [x, y, Math.abs(z)];
}
