/**
 * The rig file: the part of TOML that it needs, written and read. What is read is checked here as
 * far as the page needs it; `cutpaths calibrate` checks it whole.
 */

import { usualInset } from "./crosses.js";
import { readLength } from "./lengths.js";

/** A rig as the text of a rig file. Lengths are in mm. */
export function rigText(rig) {
  const lines = [
    "# A projector above a cutting table, for cutpaths; saved by its page.",
    "format = 1",
    `name = ${JSON.stringify(rig.name)}`,
    'units = "mm"',
    "",
    "[picture]",
    ...["width", "height", "columns", "rows", "inset"].map((key) => `${key} = ${rig[key]}`),
    "",
    "[tape]",
    `within = ${decimal(rig.within)}`,
    "",
    "[distances]",
    ...rig.distances.map(([i, j, mm]) => `"${i}-${j}" = ${decimal(mm)}`),
    "",
    "[positions]",
    ...rig.positions.map(([i, x, y]) => `"${i}" = [${decimal(x)}, ${decimal(y)}]`),
  ];
  return `${lines.join("\n")}\n`;
}

/** {rig} of a rig file's text, or {problem}. */
export function readRig(text) {
  const tables = { "": {} };
  let table = "";
  const lines = text.split(/\r?\n/);
  for (const [n, line] of lines.entries()) {
    const bare = line.replace(/#(?=(?:[^"]*"[^"]*")*[^"]*$).*$/, "").trim();
    const head = /^\[([a-z.]+)\]$/.exec(bare);
    const pair = /^"?([A-Za-z0-9_-]+)"?\s*=\s*(.+)$/.exec(bare);
    if (head) table = head[1];
    else if (pair) tables[table] = { ...tables[table], [pair[1]]: value(pair[2].trim()) };
    else if (bare) return { problem: `line ${n + 1} of the file is not understood` };
  }
  return settled(tables);
}

/** A value: a text, a pair, or a word as it stands. */
function value(text) {
  if (text.startsWith("[")) return text.replace(/^\[|\]$/g, "").split(",").map((t) => plainValue(t));
  return plainValue(text);
}

function plainValue(text) {
  const trimmed = text.trim();
  if (!/^".*"$/.test(trimmed)) return trimmed;
  try {
    return JSON.parse(trimmed);
  } catch {
    return trimmed.slice(1, -1);
  }
}

function settled(tables) {
  const [file, picture] = [tables[""], tables.picture ?? {}];
  const unit = file.units ?? "in";
  const [width, height] = [Number(picture.width), Number(picture.height)];
  const [columns, rows] = [Number(picture.columns ?? 4), Number(picture.rows ?? 3)];
  if (file.format !== "1") return { problem: "this is no rig file: `format = 1` is missing" };
  if (!(width >= 320 && height >= 320 && width <= 16384 && height <= 16384)) {
    return { problem: "`picture.width` and `picture.height` must be from 320 to 16384 pixels" };
  }
  if (![columns, rows].every((n) => Number.isInteger(n) && n >= 3 && n <= 9)) {
    return { problem: "`picture.columns` and `picture.rows` must be from 3 to 9" };
  }
  const wrong = [];
  const mm = (written, key, positive) => {
    const found = readLength(String(written), unit);
    const small = positive && !(found.mm > 0) ? "must be more than 0" : "";
    if (found.problem || small) wrong.push(`\`${key}\` ${found.problem || small}`);
    return found.mm;
  };
  const last = columns * rows;
  const named = (key, list) => list.every((n) => n >= 1 && n <= last && Number.isInteger(n))
    || !wrong.push(`\`${key}\` must name crosses from 1 to ${last}`);
  const distances = Object.entries(tables.distances ?? {}).map(([key, written]) => {
    const pair = key.split("-").map(Number);
    if (named(`distances.${key}`, pair) && (pair.length !== 2 || pair[0] === pair[1])) {
      wrong.push(`\`distances.${key}\` must be between two different crosses`);
    }
    return [...pair, mm(written, `distances.${key}`, true)];
  });
  const positions = Object.entries(tables.positions ?? {}).map(([key, written]) => {
    named(`positions.${key}`, [Number(key)]);
    return [Number(key), ...[].concat(written).map((each) => mm(each, `positions.${key}`, false))];
  });
  const within = tables.tape?.within === undefined ? 1 : mm(tables.tape.within, "tape.within", true);
  const inset = Number(picture.inset ?? usualInset(width, height));
  if (wrong.length) return { problem: wrong[0] };
  const name = String(file.name ?? "Projector");
  const rig = { name, width, height, columns, rows, inset, within, distances, positions };
  return { rig };
}

/** A number without exponent, to a millionth. */
function decimal(mm) {
  return String(Number(mm.toFixed(6)));
}
