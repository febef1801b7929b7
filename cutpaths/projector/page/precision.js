/** What a mark may be off by, and what to measure next: the sums of `projector/precision.py`. */

import { dot, flipped, solve } from "./equations.js";
import { PICTURE, isFree, spotOf } from "./fit.js";

const MAP_COLUMNS = 9;
const MAP_ROWS = 5;
const FAINT = 1e-3; // what is known of each number beforehand, where readings are too few

/** The expected errors in mm at evenly spread places of the picture. */
export function errorMap(known, fitted, spread) {
  const covariance = covarianceOf(fitted.slope, 0);
  return centred(fitted.numbers, known.corner).map((pair) => {
    const variance = pair.reduce((sum, row) => sum + dot(row, timesRows(covariance, row)), 0);
    return Math.sqrt(Math.max(0, variance)) * spread;
  });
}

/** The pairs of crosses whose distances would make the picture most certain, best first. */
export function bestNext(known, fitted, taken, count) {
  const frame = centred(fitted.numbers, known.corner).flat();
  const pairs = pairsOf(known.spots.length).filter((pair) => !isTaken(taken, pair));
  const slopes = pairs.map((pair) => distanceSlope(known.spots, fitted.numbers, pair));
  let covariance = covarianceOf(fitted.slope, isFree(fitted.slope) ? FAINT : 0);
  const found = [];
  while (found.length < Math.min(count, pairs.length)) {
    let best = -1;
    let most = -Infinity;
    slopes.forEach((slope, n) => {
      const gain = found.includes(n) ? -Infinity : gainOf(frame, covariance, slope);
      if (gain > most) [best, most] = [n, gain];
    });
    found.push(best);
    covariance = learned(covariance, slopes[best]);
  }
  return found.map((n) => pairs[n]);
}

/** A picture without keystone in which some distances are taken as measured. */
export function level(known, pairs) {
  const numbers = [1, 0, 1, 0, 0];
  return { numbers, slope: pairs.map((pair) => distanceSlope(known.spots, numbers, pair)) };
}

/** Whether a pair of crosses, either way round, is among some. */
export function isTaken(pairs, [i, j]) {
  return pairs.some(([a, b]) => (a === i && b === j) || (a === j && b === i));
}

function pairsOf(last) {
  const all = Array.from({ length: last }, (_, n) => n + 1);
  return all.flatMap((i) => all.slice(i).map((j) => [i, j]));
}

/** Of the picture's five numbers, for readings of standard deviation 1 unit. */
function covarianceOf(slope, faint) {
  const columns = flipped(slope);
  const square = columns.map((u, i) => columns.map((v, j) => dot(u, v) + (i === j ? faint : 0)));
  const unit = (k) => square.map((_, n) => Number(n === k));
  return Array.from({ length: PICTURE }, (_, k) => solve(square, unit(k)).slice(0, PICTURE));
}

function timesRows(matrix, vector) {
  return matrix.map((row) => dot(row, vector));
}

/** Change of each place with each number, less what a shift and a turn of the whole makes up. */
function centred(numbers, corner) {
  const places = grid(corner).map((point) => spotOf(point, numbers));
  const middle = [0, 1].map((k) => places.reduce((sum, p) => sum + p.at[k], 0) / places.length);
  const motions = places.map(({ at: [x, y] }) =>
    [[1, 0, middle[1] - y], [0, 1, x - middle[0]]]);
  const [flat, change] = [motions.flat(), places.flatMap((p) => [p.right, p.up])];
  const columns = flipped(flat);
  const square = columns.map((u) => columns.map((v) => dot(u, v)));
  const follow = flipped(change).map((c) => solve(square, columns.map((u) => dot(u, c))));
  const left = change.map((row, n) => row.map((value, k) => value - dot(flat[n], follow[k])));
  return places.map((_, n) => [left[2 * n], left[2 * n + 1]]);
}

/** Evenly spread places from edge to edge of the picture, rows from the top. */
function grid([x, y]) {
  const part = (n, count) => (2 * n) / (count - 1) - 1;
  return Array.from({ length: MAP_COLUMNS * MAP_ROWS }, (_, n) => [
    x * part(n % MAP_COLUMNS, MAP_COLUMNS), -y * part(Math.floor(n / MAP_COLUMNS), MAP_ROWS),
  ]);
}

function distanceSlope(spots, numbers, [i, j]) {
  const [p, q] = [spotOf(spots[i - 1], numbers), spotOf(spots[j - 1], numbers)];
  const across = [p.at[0] - q.at[0], p.at[1] - q.at[1]];
  const far = Math.hypot(...across);
  return p.right.map((value, n) =>
    (across[0] * (value - q.right[n]) + across[1] * (p.up[n] - q.up[n])) / far);
}

/** How much less the variances of all places would be, to twelve decimals so that ties are ties. */
function gainOf(frame, covariance, slope) {
  const seen = timesRows(covariance, slope);
  const less = frame.reduce((sum, row) => sum + dot(row, seen) ** 2, 0);
  return Math.round((less / (1 + dot(slope, seen))) * 1e12) / 1e12;
}

function learned(covariance, slope) {
  const seen = timesRows(covariance, slope);
  const all = 1 + dot(slope, seen);
  return covariance.map((row, i) => row.map((value, j) => value - (seen[i] * seen[j]) / all));
}
