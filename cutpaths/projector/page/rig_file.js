/**
 * The rig file. Its text is what the page keeps, saves and loads: readings are changed in it, and
 * all else stays as it was written.
 */

import { withUnit } from "./lengths.js";
import { settled } from "./rig_rules.js";
import { lineOf } from "./toml_line.js";

const KNOWN = {
  "": ["format", "name", "units"],
  picture: ["width", "height", "columns", "rows", "inset"],
  tape: ["within"],
  cloth: ["margin", "thickness"],
  lens: ["height"],
  "lens.distances": null,
  distances: null,
  positions: null,
};

/** The text of a rig that is still to be measured. */
export function freshText(width, height, unit) {
  return `# A projector above a cutting table, for cutpaths; begun on its page.
format = 1
name = "Projector"
units = "${unit}"

[picture]
width = ${width}
height = ${height}

[distances]

[positions]
`;
}

/** {rig} of a rig file's text, or {problem}. Tables are Maps, so that readings keep their order. */
export function readRig(text) {
  const tables = { "": new Map() };
  let table = "";
  for (const [n, line] of text.replace(/^\uFEFF/, "").split(/\r?\n/).entries()) {
    const found = lineOf(line);
    const at = `line ${n + 1} of the file`;
    if (!found) return { problem: `${at} is not understood: write a key, =, and a number or "text"` };
    if (found.table) {
      table = found.table;
      if (!Object.hasOwn(KNOWN, table)) return { problem: `${at}: \`${table}\` is not a known table` };
      if (tables[table]) return { problem: `${at} has the table \`${table}\` again` };
      tables[table] = new Map();
    }
    if (found.key === undefined) continue;
    const { key, values, list } = found;
    if (!table && key === "include") {
      return { problem: "`include` names files that the page cannot read: put all into one file" };
    }
    if (KNOWN[table] && !KNOWN[table].includes(key)) {
      return { problem: `${at}: \`${key}\` is not a known key` };
    }
    if (tables[table].has(key)) return { problem: `${at} has \`${key}\` again` };
    if (list !== (table === "positions") || (list && values.length !== 2)) {
      return { problem: `${at}: \`${key}\` must be ${list ? "a single value" : "a pair, right and up"}` };
    }
    tables[table].set(key, list ? values : values[0]);
  }
  return settled(text, tables);
}

/** A rig's text with its readings as they are now; all else in it as it was written. */
export function savedText(rig) {
  const left = { distances: new Map(), positions: new Map() };
  for (const [i, j, , written] of rig.distances) {
    const taken = left.distances.has(`${i}-${j}`);
    left.distances.set(taken ? `${j}-${i}` : `${i}-${j}`, [written]);
  }
  for (const [n, , , written] of rig.positions) left.positions.set(String(n), written);
  const ends = {};
  const lines = [];
  let table = "";
  for (const line of rig.text.trimEnd().split(/\r?\n/)) {
    const found = lineOf(line);
    table = found.table ?? table;
    const list = left[table];
    const now = list?.get(found.key);
    list?.delete(found.key);
    if (!list || found.key === undefined) lines.push(line);
    else if (now) lines.push(isSame(found.values, now, rig.unit) ? line : pair(found, now, rig.unit));
    if (list && (found.table || found.key)) ends[table] = lines.length;
  }
  const open = Object.keys(left).filter((name) => left[name].size);
  for (const name of open.filter((each) => !(each in ends))) {
    lines.push("", `[${name}]`);
    ends[name] = lines.length;
  }
  for (const name of open.sort((a, b) => ends[b] - ends[a])) {
    const added = [...left[name]].map(([key, now]) => pair({ key, comment: "" }, now, rig.unit));
    lines.splice(ends[name], 0, ...added);
  }
  return `${lines.join("\n")}\n`;
}

function isSame(values, now, unit) {
  return values.length === now.length && values.every((each, n) => withUnit(each, unit) === now[n]);
}

/** A line of a file for a reading. */
function pair({ key, comment }, written, unit) {
  const values = written.map((each) => {
    const bare = each.endsWith(` ${unit}`) ? each.slice(0, -unit.length - 1) : "";
    return /^-?(0|[1-9][0-9]*)(\.[0-9]+)?$/.test(bare) ? bare : JSON.stringify(each);
  });
  const value = written.length > 1 ? `[${values.join(", ")}]` : values[0];
  return `"${key}" = ${value}${comment ? `  ${comment}` : ""}`;
}
