/**
 * The least-squares fit of a picture to readings: the same sums as `projector/fit.py`, which
 * explains them.
 *
 * Readings are {distances: [[first, second, mm]], positions: [[cross, x, y]]}, crosses counted
 * from 1. Distances are counted first, then crosses on the mat.
 */

import { dot, flipped, median, solve, squareOf } from "./equations.js";
import { inverse, product } from "./homography.js";

export const PICTURE = 5;
const MAT = 3;
const ROUNDS_MOST = 200;
const SETTLED = 1e-14;
const DEPTH_LEAST = 0.05;
const STARTS = [[0, 0], [0.3, 0], [-0.3, 0], [0, 0.3], [0, -0.3]];

/** How many numbers are read beyond what is looked for; less than 0 where there are too few. */
export function spare({ distances, positions }) {
  return distances.length + 2 * positions.length - PICTURE - (positions.length ? MAT : 0);
}

/** Readings as numbers near 1: lengths in `unit` mm, places of the picture in half diagonals. */
export function knownOf(width, height, crosses, readings) {
  const half = Math.hypot(width, height) / 2;
  const spots = crosses.map(([x, y]) => [(x - width / 2) / half, (height / 2 - y) / half]);
  const unit = unitOf(spots, readings);
  return {
    width,
    height,
    half,
    unit,
    spots,
    corner: [width / 2 / half, height / 2 / half],
    distances: readings.distances.map(([i, j, mm]) => [i - 1, j - 1, mm / unit]),
    positions: readings.positions.map(([i, x, y]) => [i - 1, x / unit, y / unit]),
  };
}

/** All but one reading. */
export function without(known, index) {
  const count = known.distances.length;
  return {
    ...known,
    distances: known.distances.filter((_, n) => n !== index),
    positions: known.positions.filter((_, n) => n !== index - count),
  };
}

/** The fit with the least squares of all starts: {numbers, rest, slope, squares}, in units. */
export function fitOf(known) {
  const fits = STARTS.map((start) => settle(known, startFrom(known, start)));
  return fits.reduce((a, b) => (b.squares < a.squares ? b : a));
}

/** The view that a fit's numbers say: {toTable, toPixel}. */
export function viewOf({ width, height, half, unit }, [a, b, e, g, h]) {
  const about = [1 / half, 0, -width / 2 / half, 0, -1 / half, height / 2 / half, 0, 0, 1];
  const toTable = product([a * unit, b * unit, 0, 0, e * unit, 0, g, h, 1], about);
  return { toTable, toPixel: inverse(toTable) };
}

/** The part of each reading's error that shows in its rest; nought where nothing checks it. */
export function standardErrors({ slope }) {
  const square = squareOf(slope, 1e-12);
  return slope.map((row) => Math.sqrt(Math.max(0, 1 - dot(row, solve(square, row)))));
}

/** Steps downhill from a start until the steps vanish. */
function settle(known, start) {
  let numbers = start;
  let damping = 1e-3;
  let { rest, slope } = model(known, numbers);
  let squares = dot(rest, rest);
  for (let round = 0; round < ROUNDS_MOST; round += 1) {
    const step = solve(squareOf(slope, damping), flipped(slope).map((u) => -dot(u, rest)));
    const tried = numbers.map((value, n) => value + step[n]);
    const next = possible(known, tried) ? model(known, tried) : null;
    if (next && dot(next.rest, next.rest) <= squares) {
      numbers = tried;
      ({ rest, slope } = next);
      squares = dot(rest, rest);
      damping = Math.max(damping / 10, 1e-15);
      if (Math.max(...step.map(Math.abs)) < SETTLED) break;
    } else {
      damping *= 10;
      if (damping > 1e12) break;
    }
  }
  return { numbers, rest, slope, squares };
}

/** Model less tape for each reading, and its change with each number. */
export function model(known, numbers) {
  const places = known.spots.map((spot) => spotOf(spot, numbers));
  const rest = [];
  const slope = [];
  const more = numbers.slice(PICTURE).map(() => 0);
  for (const [i, j, length] of known.distances) {
    const [p, q] = [places[i], places[j]];
    const across = [p.at[0] - q.at[0], p.at[1] - q.at[1]];
    const far = Math.hypot(...across);
    rest.push(far - length);
    const change = p.right.map((value, n) =>
      (across[0] * (value - q.right[n]) + across[1] * (p.up[n] - q.up[n])) / far);
    slope.push([...change, ...more]);
  }
  const [turn, dx, dy] = numbers.slice(PICTURE);
  for (const [i, x, y] of known.positions) {
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const { at, right, up } = places[i];
    rest.push(cos * at[0] - sin * at[1] + dx - x, sin * at[0] + cos * at[1] + dy - y);
    slope.push([...right.map((r, n) => cos * r - sin * up[n]), -sin * at[0] - cos * at[1], 1, 0]);
    slope.push([...right.map((r, n) => sin * r + cos * up[n]), cos * at[0] - sin * at[1], 0, 1]);
  }
  return { rest, slope };
}

/** Where a point of the picture falls, and the change of right and up with a, b, e, g and h. */
export function spotOf([x, y], [a, b, e, g, h]) {
  const depth = g * x + h * y + 1;
  const [right, up] = [(a * x + b * y) / depth, (e * y) / depth];
  return {
    at: [right, up],
    right: [x / depth, y / depth, 0, (-right * x) / depth, (-right * y) / depth],
    up: [0, 0, y / depth, (-up * x) / depth, (-up * y) / depth],
  };
}

/** Whether the picture is the right way round and all of it falls on the table. */
function possible({ corner }, [a, , e, g, h]) {
  return a > 0 && e > 0 && 1 - Math.abs(g * corner[0]) - Math.abs(h * corner[1]) >= DEPTH_LEAST;
}

/** A start with some keystone; the mat as it fits it. */
function startFrom(known, [g, h]) {
  const numbers = [1, 0, 1, g, h];
  if (!known.positions.length) return numbers;
  const places = known.positions.map(([i]) => spotOf(known.spots[i], numbers).at);
  const mat = known.positions.map(([, x, y]) => [x, y]);
  const [p, q] = [mean(places), mean(mat)];
  let [along, across] = [0, 0];
  places.forEach(([x, y], n) => {
    const [u, v, s, t] = [x - p[0], y - p[1], mat[n][0] - q[0], mat[n][1] - q[1]];
    along += u * s + v * t;
    across += u * t - v * s;
  });
  const turn = Math.atan2(across, along);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [...numbers, turn, q[0] - cos * p[0] + sin * p[1], q[1] - sin * p[0] - cos * p[1]];
}

/** mm for a half diagonal: the median over all that was read. */
function unitOf(spots, { distances, positions }) {
  const apart = (i, j) => Math.hypot(spots[i][0] - spots[j][0], spots[i][1] - spots[j][1]);
  const ratios = distances.map(([i, j, mm]) => mm / apart(i - 1, j - 1));
  for (let n = 1; n < positions.length; n += 1) {
    const [[i, x, y], [j, u, v]] = [positions[n], positions[n - 1]];
    if (apart(i - 1, j - 1)) ratios.push(Math.hypot(x - u, y - v) / apart(i - 1, j - 1));
  }
  const found = median(ratios);
  return found > 0 ? found : 1;
}

function mean(points) {
  const sum = points.reduce(([x, y], [u, v]) => [x + u, y + v], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
}

/** Whether the readings leave some number free: a column that the others make up (Gram-Schmidt). */
export function isFree(slope) {
  if (slope.length < slope[0].length) return true;
  const basis = [];
  for (let n = 0; n < slope[0].length; n += 1) {
    let column = slope.map((row) => row[n]);
    const size = Math.sqrt(dot(column, column));
    for (const each of basis) {
      const part = dot(each, column);
      column = column.map((value, k) => value - part * each[k]);
    }
    const left = Math.sqrt(dot(column, column));
    if (!(left > 1e-7 * size)) return true;
    basis.push(column.map((value) => value / left));
  }
  return false;
}
