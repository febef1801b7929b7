/** Small systems of linear equations, as lists of rows, and the median. */

/** The middle of some numbers. */
export function median(numbers) {
  const sorted = [...numbers].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return Number.isInteger(half)
    ? (sorted[half - 1] + sorted[half]) / 2
    : sorted[Math.floor(half)];
}

/** The sum of products of two lists. */
export function dot(u, v) {
  return u.reduce((sum, value, n) => sum + value * v[n], 0);
}

/** A matrix's columns as rows. */
export function flipped(rows) {
  return rows[0].map((_, n) => rows.map((row) => row[n]));
}

/** The normal equations' matrix of a slope, its diagonal raised by a part of itself. */
export function squareOf(slope, damping) {
  const columns = flipped(slope);
  const matrix = columns.map((u) => columns.map((v) => dot(u, v)));
  matrix.forEach((row, n) => { row[n] += damping * (row[n] + 1e-12); });
  return matrix;
}

/** What solves a square system, by elimination with the largest pivot. */
export function solve(matrix, right) {
  const rows = matrix.map((row, n) => [...row, right[n]]);
  const count = rows.length;
  for (let n = 0; n < count; n += 1) {
    const pivot = rows.slice(n).reduce((best, row, k) =>
      (Math.abs(row[n]) > Math.abs(rows[best][n]) ? n + k : best), n);
    [rows[n], rows[pivot]] = [rows[pivot], rows[n]];
    for (let k = n + 1; k < count; k += 1) {
      const factor = rows[k][n] / rows[n][n];
      for (let c = n; c <= count; c += 1) rows[k][c] -= factor * rows[n][c];
    }
  }
  const found = new Array(count).fill(0);
  for (let n = count - 1; n >= 0; n -= 1) {
    let sum = rows[n][count];
    for (let c = n + 1; c < count; c += 1) sum -= rows[n][c] * found[c];
    found[n] = sum / rows[n][n];
  }
  return found;
}
