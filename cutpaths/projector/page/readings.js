/**
 * What was typed: rows {from, to, text} of the tape and {cross, right, up} of the mat, and the rig
 * that they say.
 */

import { firstPairs, outer } from "./crosses.js";
import { exact, readLength, withUnit } from "./lengths.js";

const TWICE = 4; // readings of one distance agree within this many standard deviations

export const KINDS = ["tape", "mat"];
export const EMPTY = {
  tape: { from: "", to: "", text: "" },
  mat: { cross: "", right: "", up: "" },
};

/** Rows of the forms for a rig: its own readings, else what to measure first. */
export function rowsFor(rig) {
  const tape = rig.distances.map(([from, to, , text]) => ({ from, to, text }));
  const mat = rig.positions.map(([cross, , , [right, up]]) => ({ cross, right, up }));
  return {
    tape: tape.length ? tape : firstPairs(rig).map(([from, to]) => ({ from, to, text: "" })),
    mat: mat.length ? mat : outer(rig).map((cross) => ({ cross, right: "", up: "" })),
  };
}

/** The rig that the rows say: {rig, problems}, a problem for each row that cannot be used. */
export function rigOf(rig, rows, unit) {
  const [distances, positions] = [[], []];
  const problems = {
    tape: rows.tape.map((row) => takeDistance(rig, row, unit, distances)),
    mat: rows.mat.map((row) => takePosition(rig, row, unit, positions)),
  };
  return { rig: { ...rig, distances, positions }, problems };
}

/** Adds a row's distance to some, or says why not. */
function takeDistance(rig, row, unit, found) {
  if (!row.text.trim()) return "";
  const [i, j] = [Number(row.from), Number(row.to)];
  if (![i, j].every((n) => isCross(rig, n))) return numbered(rig);
  if (i === j) return "must be between two different crosses";
  const { mm, problem } = readLength(row.text, unit);
  if (problem) return problem;
  if (mm <= 0) return "must be more than 0";
  const same = found.filter(([a, b]) => (a === i && b === j) || (a === j && b === i));
  const apart = same.find((each) => Math.abs(each[2] - mm) > TWICE * rig.within);
  if (apart) return `does not agree with ${exact(apart[2], rig.unit)} above: measure again, keep one`;
  if (same.length > 1) return "is above twice already";
  found.push([i, j, mm, withUnit(row.text, unit)]);
  return "";
}

/** Adds a row's cross on the mat to some, or says why not. */
function takePosition(rig, row, unit, found) {
  const texts = [row.right, row.up];
  if (!texts.some((text) => text.trim())) return "";
  const n = Number(row.cross);
  if (!isCross(rig, n)) return numbered(rig);
  const read = texts.map((text) => readLength(text, unit));
  const names = ["right", "up"];
  const bad = read.findIndex(({ problem }) => problem);
  if (bad >= 0) return `${names[bad]} ${texts[bad].trim() ? read[bad].problem : "is missing"}`;
  if (found.some(([cross]) => cross === n)) return `cross ${n} is above already`;
  const [x, y] = read.map(({ mm }) => mm);
  const there = found.find(([, u, v]) => u === x && v === y);
  if (there) return `must not be the place of cross ${there[0]}`;
  found.push([n, x, y, texts.map((text) => withUnit(text, unit))]);
  return "";
}

function isCross({ columns, rows }, n) {
  return Number.isInteger(n) && n >= 1 && n <= columns * rows;
}

function numbered({ columns, rows }) {
  return `crosses are numbered from 1 to ${columns * rows}`;
}

/**
 * What stands beside each row: {text, problem}. `found` is what `calibrated` says of the rig, null
 * while some row cannot be used.
 */
export function remarksOf(rig, rows, problems, found) {
  const named = (key) => found?.findings.find((each) => each.key === key);
  const remark = (key, index, problem) => {
    const finding = named(key);
    if (problem) return { text: "", problem };
    if (finding) return { text: "", problem: `${finding.problem}. ${finding.hint}` };
    const rest = index < 0 ? undefined : found?.residuals?.[index];
    return rest ? restText(rest) : { text: "", problem: "" };
  };
  const crossOf = (row) => rig.positions.findIndex(([n]) => n === Number(row.cross));
  let taken = -1;
  return {
    tape: rows.tape.map((row, n) => {
      if (row.text.trim() && !problems.tape[n]) taken += 1;
      const index = row.text.trim() && !problems.tape[n] ? taken : -1;
      const key = index < 0 ? "" : `distances.${Number(row.from)}-${Number(row.to)}`;
      return remark(key, index, problems.tape[n]);
    }),
    mat: rows.mat.map((row, n) => {
      const index = problems.mat[n] || !(row.right.trim() || row.up.trim()) ? -1 : crossOf(row);
      const key = index < 0 ? "" : `positions.${Number(row.cross)}`;
      return remark(key, index < 0 ? -1 : rig.distances.length + index, problems.mat[n]);
    }),
  };
}

/** What a reading is off by; of a cross on the mat how far. */
function restText({ off, checked, doubtful }) {
  const size = Math.abs(off).toFixed(1);
  const sign = { "0.0": "" }[size] ?? (off < 0 ? "−" : "+");
  return {
    text: checked ? `off by ${sign}${size} mm` : "nothing checks it",
    problem: doubtful ? "doubtful: measure it again" : "",
  };
}
