/** A misread tape, found by leaving each reading out: the rules and words of `misread.py`. */

import { fitOf, model, spare, standardErrors, without } from "./fit.js";
import { about, exact, unitOfText } from "./lengths.js";
import { factorOf, times, unitRead } from "./wrong_unit.js";

const TOGETHER = 4; // standard deviations: readings whose mean misfit is less may all be right
const AFTER = 2.5; // the same once the misread one is out
const CLEAR = 3; // times: how much better the best suspect explains the misfit than the next

/** What is wrong with readings that cannot all be right; empty where they may be. */
export function misreadFindings(rig, known, fitted) {
  const over = spare(known);
  if (over < 1) return [];
  if (misfit(fitted, known, rig, over) <= TOGETHER && !outlier(rig, known, fitted)) return [];
  const suspects = suspectsOf(rig, known).sort((a, b) => a.misfit - b.misfit);
  const [first] = suspects;
  if (first && first.misfit <= AFTER && isClear(suspects)) return [named(rig, known, first)];
  const most = Math.max(...fitted.rest.map(Math.abs)) * known.unit;
  const said = (which, hint) => [{
    key: rig.distances.length ? "distances" : "positions",
    problem: `disagree by ${Number(most.toFixed(1))} mm: ${which}`,
    hint,
  }];
  if (!first) return said("one reading is wrong", "Measure one distance more to find out which");
  if (first.misfit <= AFTER) {
    const close = suspects.filter((s) => s.misfit <= Math.max(AFTER, CLEAR * first.misfit));
    const names = namesOf(rig, close.map((s) => s.index));
    return said("one reading is wrong", `Measure again ${names}, and one distance more`);
  }
  const count = rig.distances.length;
  const worst = fitted.rest.map((_, n) => n)
    .sort((a, b) => Math.abs(fitted.rest[b]) - Math.abs(fitted.rest[a]))
    .map((n) => (n < count ? n : count + Math.floor((n - count) / 2)));
  return said("several readings are wrong", `Measure again ${namesOf(rig, worst)} first`);
}

/** Whether one reading stands out although the mean misfit is small. */
function outlier(rig, known, fitted) {
  const errors = standardErrors(fitted);
  return fitted.rest.some((rest, n) => errors[n] > 0.05
    && (Math.abs(rest) * known.unit) / errors[n] / rig.within > 2 * TOGETHER);
}

/** Standard deviations of a reading that the rests amount to. */
function misfit(fitted, known, rig, over) {
  return (Math.sqrt(fitted.squares / over) * known.unit) / rig.within;
}

/** Each reading with the fit of all others; those that then have no check are left out. */
function suspectsOf(rig, known) {
  const found = [];
  for (let index = 0; index < known.distances.length + known.positions.length; index += 1) {
    const rest = without(known, index);
    const over = spare(rest);
    if (over < 1) continue;
    const fitted = fitOf(rest);
    const expected = expectedOf(known, fitted, index);
    found.push({ index, misfit: misfit(fitted, rest, rig, over), expected });
  }
  return found;
}

/** What a distance should read, in mm; for a cross on the mat 0. */
function expectedOf(known, fitted, index) {
  if (index >= known.distances.length) return 0;
  const { rest } = model(known, fitted.numbers);
  return (rest[index] + known.distances[index][2]) * known.unit;
}

/** Whether no other reading explains the misfit nearly as well. */
function isClear([first, second]) {
  return !second || (second.misfit > AFTER && second.misfit > CLEAR * first.misfit);
}

function named(rig, known, { index, expected }) {
  const count = known.distances.length;
  if (index >= count) {
    const problem = "is not where all other readings have it";
    return { key: `positions.${rig.positions[index - count][0]}`, problem, hint: "Read it again" };
  }
  const [i, j, mm, written] = rig.distances[index];
  const [key, ratio] = [`distances.${i}-${j}`, expected > 0 ? mm / expected : 1];
  const shown = unitOfText(written, rig.unit);
  const right = about(expected, shown);
  const problem = `must be about ${right} by all other readings, got ${exact(mm, shown)}`;
  if (!factorOf(ratio)) return { key, problem, hint: "Measure it again" };
  const unit = unitRead(ratio, shown);
  const hint = unit ? `Was it read in ${unit}?` : "Was another unit written beside it?";
  return { key, problem: `${problem}, ${times(ratio)} that`, hint };
}

/** The first three of some readings, each once. */
function namesOf(rig, indices) {
  const count = rig.distances.length;
  const name = (n) => (n < count
    ? `\`${rig.distances[n][0]}-${rig.distances[n][1]}\`` : `cross ${rig.positions[n - count][0]}`);
  return [...new Set(indices)].slice(0, 3).map(name).join(", ");
}
