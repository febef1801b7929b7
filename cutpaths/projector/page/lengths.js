/** Lengths as people write them: 1204, 47.5 in, 47 1/2", 120,4 is refused. In mm. */

const UNITS = { mm: 1, cm: 10, m: 1000, in: 25.4, inch: 25.4, inches: 25.4, '"': 25.4, "″": 25.4 };
const VULGAR = { "½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8 };
const LENGTH = new RegExp(
  "^\\s*(-?)(?:([0-9]{1,9}(?:\\.[0-9]{0,9})?)|([0-9]{1,9})[\\s-]+([0-9]{1,9})[/⁄]([0-9]{1,9})"
  + "|([0-9]{1,9})[/⁄]([0-9]{1,9})|([0-9]{0,9})\\s*-?\\s*([½¼¾⅛⅜⅝⅞]))\\s*([A-Za-z\"″]*)\\s*$",
);

/** {mm} of a written length, or {problem}; a bare number takes `unit`. */
export function readLength(text, unit) {
  const found = LENGTH.exec(text);
  const example = 'such as 1204, 47.5 in or 47 1/2 in';
  if (!found) return { problem: `must be a length ${example}` };
  const [, sign, plain, whole, over, under, top, bottom, count, vulgar, name] = found;
  const size = UNITS[(name || unit).toLowerCase()];
  if (!size) return { problem: `must be in mm, cm, m or in, not ${name}` };
  if (Number(under) === 0 || Number(bottom) === 0) return { problem: "must not divide by zero" };
  let number = Number(plain);
  if (whole) number = Number(whole) + Number(over) / Number(under);
  else if (top) number = Number(top) / Number(bottom);
  else if (vulgar) number = Number(count || 0) + VULGAR[vulgar];
  return { mm: (sign ? -number : number) * size };
}

/** A length in a unit, with what decimals it needs. */
export function showLength(mm, unit) {
  return `${Number((mm / UNITS[unit]).toFixed(3))} ${unit}`;
}

/** The unit that explains a reading `ratio` times too large; empty where none does. */
export function unitRead(ratio, unit) {
  for (const name of ["mm", "cm", "in", "m"]) {
    const expected = UNITS[unit] / UNITS[name];
    if (name !== unit && Math.abs(Math.log(ratio / expected)) < 0.4) return name;
  }
  return "";
}
