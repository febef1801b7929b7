/** Lengths as people write them and as messages show them, read as `lengths.py` reads them; mm. */

const INCH = 25.4;
const UNITS = {
  mm: 1, cm: 10, m: 1000, in: INCH, inch: INCH, inches: INCH, '"': INCH, "″": INCH,
  yd: 36 * INCH, yard: 36 * INCH, yards: 36 * INCH,
};
const VULGAR = {
  "½": 1 / 2, "⅓": 1 / 3, "⅔": 2 / 3, "¼": 1 / 4, "¾": 3 / 4,
  "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8,
};
const FINEST = 64; // parts of an inch on the finest ruler
const LONGEST = 60; // characters
const MOST = 100_000; // mm
const DECIMAL = "([0-9]{1,9}(?:\\.[0-9]{0,9})?|\\.[0-9]{1,9})(?!\\s*[/⁄0-9])";
const FRACTION = "([0-9]{1,9})\\s*[/⁄]\\s*([0-9]{1,9})";
const MIXED = `([0-9]{1,9})(?:\\s+|\\s*-\\s*)${FRACTION}`;
const SIGN = "(?=[0-9½⅓⅔¼¾⅛⅜⅝⅞])([0-9]{0,9})\\s*-?\\s*([½⅓⅔¼¾⅛⅜⅝⅞])";
const LENGTH = new RegExp(
  `^\\s*([+-]?)\\s*(?:${DECIMAL}|${FRACTION}|${MIXED}|${SIGN})\\s*([A-Za-z"″]*)\\s*$`,
);

/** {mm} of a written length, or {problem}; a bare number takes `unit`. */
export function readLength(text, unit) {
  const found = text.length <= LONGEST ? LENGTH.exec(text) : null;
  if (!found) return { problem: "must be a length such as 1204, 47.5 in or 47 1/2 in" };
  const [, sign, plainly, over, under, whole, top, bottom, count, vulgar, name] = found;
  const size = UNITS[(name || unit).toLowerCase()];
  if (!size) return { problem: `must be in cm, in, m, mm or yd, not ${name}` };
  if (Number(under) === 0 || Number(bottom) === 0) return { problem: "must not divide by zero" };
  let number = Number(plainly);
  if (over) number = Number(over) / Number(under);
  else if (whole) number = Number(whole) + Number(top) / Number(bottom);
  else if (vulgar) number = Number(count || 0) + VULGAR[vulgar];
  if (number * size > MOST) return { problem: "must not be over 100 m" };
  return { mm: (sign === "-" ? -number : number) * size };
}

/** A written length with its unit, and single spaces. */
export function withUnit(text, unit) {
  const neat = text.trim().replace(/\s+/g, " ");
  return /[A-Za-z"″]$/.test(neat) ? neat : `${neat} ${unit}`;
}

/** A length for a message: exact where `unit` can say it, else with ~ and four figures. */
export function exact(mm, unit) {
  const number = mm / UNITS[unit];
  const parts = number * FINEST;
  if (unit === "in" && Math.abs(parts - Math.round(parts)) < 1e-9) {
    return `${mixed(Math.round(parts))} in`;
  }
  const text = String(Number(number.toFixed(4)));
  return `${Math.abs(Number(text) - number) < 1e-9 ? "" : "~"}${text} ${unit}`;
}

/** A length for "about": to the sixteenth of an inch, else to the mm. */
export function about(mm, unit) {
  return exact(unit === "in" ? (Math.round((mm / INCH) * 16) * INCH) / 16 : Math.round(mm), unit);
}

/** The unit in which a reading was written, where messages can be in it; else the usual one. */
export function unitOfText(written, usual) {
  const name = /[A-Za-z"″]+$/.exec(written ?? "")?.[0].toLowerCase();
  return ["mm", "cm", "in"].find((each) => name && UNITS[each] === UNITS[name]) ?? usual;
}

/** Parts of an inch as whole and fraction in lowest terms. */
function mixed(parts) {
  const [size, sign] = [Math.abs(parts), parts < 0 ? "-" : ""];
  const [whole, rest] = [Math.floor(size / FINEST), size % FINEST];
  let under = FINEST;
  while (rest && (rest * under) / FINEST % 2 === 0) under /= 2;
  const part = `${(rest * under) / FINEST}/${under}`;
  if (!rest) return `${sign}${whole}`;
  return whole ? `${sign}${whole} ${part}` : `${sign}${part}`;
}
