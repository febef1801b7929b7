/**
 * A rig from the tables of its file, checked as `projector/rig_rules.py` checks it.
 *
 * A rig has distances [first, second, mm, written] and positions [cross, right, up, [written, ...]].
 */

import { usualInset } from "./crosses.js";
import { exact, readLength, withUnit } from "./lengths.js";

const TAPE_MOST = 50; // mm

/** {rig} of a file's text and tables, or {problem}. */
export function settled(text, tables) {
  const file = Object.fromEntries(tables[""]);
  if (file.format !== "1") return { problem: "this is no rig file: `format = 1` is missing" };
  if (!file.name?.trim()) return { problem: "`name` is missing" };
  const unit = file.units ?? "in";
  if (!["in", "mm", "cm"].includes(unit)) return { problem: "`units` must be in, mm or cm" };
  const wrong = [];
  const read = readerOf(tables, unit, wrong);
  const picture = pictureOf(read);
  const within = read.length("tape", "within", "more", 1);
  if (within > TAPE_MOST) wrong.push(`\`tape.within\` must be at most ${exact(TAPE_MOST, unit)}`);
  const thickness = read.length("cloth", "thickness", "not less", 0);
  read.length("cloth", "margin", "not less", 0);
  const last = picture.columns * picture.rows;
  const rig = {
    text,
    name: file.name,
    unit,
    ...picture,
    within,
    thickness,
    lens: lensOf(tables, read, last),
    distances: distancesOf(tables, read, last),
    positions: positionsOf(tables, read, last),
  };
  wrong.push(...lensProblems(rig.lens, thickness));
  return wrong.length ? { problem: wrong[0] } : { rig };
}

/** What reads the values of tables; what is wrong goes into a list. */
function readerOf(tables, unit, wrong) {
  const tell = (key, problem) => wrong.push(`\`${key}\` ${problem}`);
  const mm = (written, key, sign) => {
    const found = readLength(written, unit);
    const small = (sign === "more" && found.mm <= 0) || (sign === "not less" && found.mm < 0);
    if (found.problem || small) tell(key, found.problem ?? `must be ${sign} than 0`);
    return found.mm;
  };
  return {
    tell,
    mm,
    written: (text) => withUnit(text, unit),
    length: (table, key, sign, usual) => {
      const text = tables[table]?.get(key);
      return text === undefined ? usual : mm(text, `${table}.${key}`, sign);
    },
    whole: (key, least, most, usual, what = "") => {
      const number = Number(tables.picture?.get(key) ?? usual);
      const sound = Number.isInteger(number) && number >= least && number <= most;
      const must = `must be a whole number${what} from ${least} to ${most}`;
      if (!sound) tell(`picture.${key}`, must);
      return number;
    },
    crosses: (key, name, count, last) => {
      const found = name.split("-").map((n) => (/^[1-9][0-9]?$/.test(n) ? Number(n) : 0));
      const sound = found.length === count && found.every((n) => n >= 1 && n <= last);
      const must = `must name ${count > 1 ? "two crosses" : "a cross"} from 1 to ${last}`;
      if (!sound) tell(key, must);
      return found;
    },
  };
}

function pictureOf(read) {
  const [width, height] = ["width", "height"].map((key) =>
    read.whole(key, 320, 16384, 0, " of pixels"));
  const [columns, rows] = [read.whole("columns", 3, 9, 4), read.whole("rows", 3, 9, 3)];
  const most = Math.floor(Math.min(width, height) / 4);
  const inset = read.whole("inset", 1, most, usualInset(width, height), " of pixels");
  return { width, height, columns, rows, inset };
}

function distancesOf(tables, read, last) {
  return [...tables.distances ?? []].map(([name, text]) => {
    const key = `distances.${name}`;
    const [i, j] = read.crosses(key, name, 2, last);
    if (i === j) read.tell(key, "must be between two different crosses");
    return [i, j, read.mm(text, key, "more"), read.written(text)];
  });
}

function positionsOf(tables, read, last) {
  return [...tables.positions ?? []].map(([name, pair]) => {
    const key = `positions.${name}`;
    const [n] = read.crosses(key, name, 1, last);
    return [n, ...pair.map((text) => read.mm(text, key)), pair.map(read.written)];
  });
}

function lensOf(tables, read, last) {
  const slants = tables["lens.distances"];
  if (!tables.lens && !slants) return null;
  const height = read.length("lens", "height", "more", NaN);
  if (Number.isNaN(height)) read.tell("lens.height", "is missing");
  const distances = [...slants ?? []].map(([name, text]) => {
    const key = `lens.distances.${name}`;
    return [read.crosses(key, name, 1, last)[0], read.mm(text, key, "more")];
  });
  return { height, distances };
}

function lensProblems(lens, thickness) {
  if (!lens) return thickness ? ["`cloth.thickness` needs the height of the lens"] : [];
  if (lens.height <= 10 * thickness) return ["`lens.height` must be over ten times the cloth"];
  const short = lens.distances.find(([, mm]) => mm < lens.height);
  if (short) return [`\`lens.distances.${short[0]}\` must not be less than \`lens.height\``];
  const few = lens.distances.length && lens.distances.length < 3;
  return few ? ["`lens.distances` must be given to three crosses at least"] : [];
}
