/** One line of a rig file: the part of TOML that keeps each key on a line of its own. */

const TEXT = String.raw`"(?:[^"\\]|\\.)*"|'[^']*'`;
const NUMBER = String.raw`[+-]?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?`;
const ATOM = String.raw`${TEXT}|${NUMBER}`;
const LIST = String.raw`\[\s*(?:(?:${ATOM})\s*(?:,\s*(?:${ATOM})\s*)*,?\s*)?\]`;
const LINE = new RegExp(
  String.raw`^\s*(?:\[\s*([a-z]+(?:\s*\.\s*[a-z]+)?)\s*\]`
  + String.raw`|(${TEXT}|[A-Za-z0-9_-]+)\s*=\s*(${ATOM}|${LIST}))?\s*(#.*)?$`,
);

/** {table}, {key, values} or {} of a line, with its comment; null where it is not understood. */
export function lineOf(text) {
  const found = LINE.exec(text);
  if (!found) return null;
  const [, table, key, value, comment = ""] = found;
  if (table) return { table: table.replace(/\s/g, ""), comment };
  if (!key) return { comment };
  const atoms = value.startsWith("[")
    ? [...value.slice(1, -1).matchAll(new RegExp(ATOM, "g"))].map(([atom]) => atom)
    : [value];
  return { key: plainText(key), values: atoms.map(plainText), list: value.startsWith("["), comment };
}

/** What a text in quotes says; a bare word as it stands. */
function plainText(atom) {
  if (atom.startsWith("'")) return atom.slice(1, -1);
  if (!atom.startsWith('"')) return atom;
  try {
    return JSON.parse(atom);
  } catch {
    return atom.slice(1, -1);
  }
}
