/** Readings in a unit that nobody said: the same rules and words as `projector/wrong_unit.py`. */

import { median } from "./equations.js";
import { distance } from "./homography.js";
import { about, exact, unitOfText } from "./lengths.js";

const SIZES = { mm: 1, cm: 10, in: 25.4, ft: 304.8, m: 1000 };
const NEAR = 0.06;
const KEYSTONE = 0.4;
const APART = 2.2;
const WIDTHS = [250, 6000]; // mm of a picture on a table
const FACTORS = [10, 25.4, 2.54, 12, 304.8, 30.48, 100, 1000];

/** The unit that explains a reading `ratio` times what it should be; empty where none does. */
export function unitRead(ratio, unit, near = NEAR) {
  const off = (name) => Math.abs(Math.log((ratio * SIZES[name]) / SIZES[unit]));
  const others = Object.keys(SIZES).filter((name) => name !== unit);
  const best = others.reduce((a, b) => (off(b) < off(a) ? b : a));
  return off(best) < near ? best : "";
}

/** A ratio in words: `10 times`, `1/25.4 of`. */
export function times(ratio) {
  const told = factorOf(ratio) ?? Math.round((ratio >= 1 ? ratio : 1 / ratio) * 10) / 10;
  return ratio >= 1 ? `${told} times` : `1/${told} of`;
}

/** The factor between two units that a ratio is, either way; undefined where it is none. */
export function factorOf(ratio) {
  return FACTORS.find((each) => Math.abs(Math.abs(Math.log(ratio)) - Math.log(each)) < NEAR);
}

/** Readings that no keystone explains but another unit does, one by one or all together. */
export function unitFindings(rig, crosses) {
  const apart = (i, j) => distance(crosses[i - 1], crosses[j - 1]);
  const ratios = rig.distances.map(([i, j, mm]) => mm / apart(i, j));
  const all = [...ratios];
  rig.positions.slice(1).forEach(([i, x, y], n) => {
    const [j, u, v] = rig.positions[n];
    if (apart(i, j)) all.push(distance([x, y], [u, v]) / apart(i, j));
  });
  if (!all.length) return [];
  const usual = median(ratios.length ? ratios : all);
  const found = [];
  rig.distances.forEach(([i, j, mm, written], n) => {
    const off = ratios[n] / usual;
    const said = unitOfText(written, rig.unit);
    const unit = off > 1 / APART && off < APART ? "" : unitRead(off, said, KEYSTONE);
    if (!unit) return;
    const got = exact(mm, said);
    const problem = `is about ${times(off)} what the other readings say, got ${got}`;
    found.push({ key: `distances.${i}-${j}`, problem, hint: `Was it read in ${unit}?` });
  });
  return [...found, ...allWrong(rig, median(all) * rig.width)];
}

/** A picture too small or too large to be one, where another unit would make it one. */
function allWrong(rig, width) {
  const sound = (mm) => mm >= WIDTHS[0] && mm <= WIDTHS[1];
  if (sound(width)) return [];
  const texts = [...rig.distances.map((each) => each[3]), ...rig.positions.map((each) => each[3]?.[0])];
  const said = new Set(texts.map((text) => unitOfText(text, rig.unit)));
  const unit = said.size === 1 ? [...said][0] : rig.unit;
  const likely = Object.keys(SIZES).filter((name) => sound((width * SIZES[name]) / SIZES[unit]));
  const near = likely.filter((name) => ["mm", "cm", "in"].includes(name));
  const names = (near.length ? near : likely).join(" or ");
  const shown = about(width, unit);
  const problem = `make the picture ${shown} wide, which no projector shows`;
  return [{ key: "units", problem, hint: names ? `Were the readings in ${names}?` : "" }];
}
