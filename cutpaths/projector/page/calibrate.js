/**
 * From a rig's readings to a calibrated view, or to what stops it: the rules and words of
 * `projector/calibrate.py`, so that the page says what `cutpaths calibrate` says.
 *
 * A finding is {key, problem, hint}.
 */

import { aligned, crossesOf, firstPairs } from "./crosses.js";
import { PICTURE, fitOf, isFree, knownOf, spare, standardErrors, viewOf } from "./fit.js";
import { about } from "./lengths.js";
import { misreadFindings } from "./misread.js";
import { bestNext, errorMap, isTaken, level } from "./precision.js";
import { unitFindings } from "./wrong_unit.js";

const DOUBTFUL = 2.5; // standard errors
const WEAK = 20; // expected error anywhere, in standard deviations of a reading

/** {view, residuals, worst, misfit} of a rig, or {findings} that say why there is none. */
export function calibrated(rig) {
  const crosses = crossesOf(rig);
  const units = unitFindings(rig, crosses);
  if (units.length) return { findings: units };
  const known = knownOf(rig.width, rig.height, crosses, rig);
  const lack = lacking(rig, crosses, known);
  if (lack.length) return { findings: lack };
  const fitted = fitOf(known);
  const misread = misreadFindings(rig, known, fitted);
  if (misread.length) return { findings: misread };
  if (isFree(fitted.slope)) {
    return { findings: [more(rig, known, "leave the picture free to change its shape")] };
  }
  const over = spare(rig);
  const misfit = over ? Math.sqrt(fitted.squares / over) * known.unit : 0;
  const worst = Math.max(...errorMap(known, fitted, Math.max(rig.within, misfit)));
  if (worst > WEAK * rig.within) {
    const off = about(worst, rig.unit);
    const problem = `hardly determine the picture: a mark may be off by ${off}`;
    return { findings: [more(rig, known, problem)] };
  }
  const residuals = residualsOf(rig, known, fitted);
  const next = stillToMeasure(rig, known)[0] ?? bestNext(known, fitted, rig.distances, 1)[0];
  return { view: viewOf(known, fitted.numbers), residuals, worst, misfit, next, findings: [] };
}

/** Of what to measure first, what the rig does not have yet. */
export function stillToMeasure(rig, known) {
  const start = firstPairs(rig);
  const all = [...start, ...bestNext(known, level(known, start), start, 3)];
  return all.filter((pair) => !isTaken(rig.distances, pair));
}

/** What stops readings of which there are too few, or whose crosses lie on a line. */
function lacking(rig, crosses, known) {
  const { distances, positions } = rig;
  const used = [...new Set([...distances.flatMap(([i, j]) => [i, j]), ...positions.map(([n]) => n)])];
  used.sort((a, b) => a - b);
  const line = used.length > 2 && aligned(used.map((n) => crosses[n - 1]));
  if (line) {
    const names = line.map((n) => used[n]).join(", ");
    const problem = "must reach four crosses of which no three are on a line: ";
    return [more(rig, known, `${problem}${names} are`)];
  }
  if (spare(rig) < 0) {
    const what = positions.length ? "readings" : "distances";
    const got = `got ${distances.length} distances and ${positions.length} positions`;
    return [more(rig, known, `must be at least ${PICTURE} ${what} (or 4 positions), ${got}`)];
  }
  const put = !distances.length && aligned(positions.map(([, x, y]) => [x, y]));
  if (!put) return [];
  const names = put.map((n) => positions[n][0]).join(", ");
  const problem = `put crosses ${names} on a line, where no picture has them`;
  return [{ key: "positions", problem, hint: "" }];
}

function more(rig, known, problem) {
  const todo = stillToMeasure(rig, known).slice(0, 3).map(([i, j]) => `${i}-${j}`).join(", ");
  const key = rig.distances.length || !rig.positions.length ? "distances" : "positions";
  return { key, problem, hint: todo ? `Measure next: ${todo}` : "" };
}

/** {off, checked, doubtful} of each reading, off in mm; of a cross on the mat the distance. */
function residualsOf(rig, known, fitted) {
  const errors = standardErrors(fitted);
  const rest = fitted.rest.map((each) => each * known.unit);
  const count = rig.distances.length;
  const told = (off, error) => {
    const checked = error > 0.05;
    return { off, checked, doubtful: checked && Math.abs(off) > DOUBTFUL * rig.within * error };
  };
  const taped = rig.distances.map((_, n) => told(rest[n], errors[n]));
  const placed = rig.positions.map((_, n) => {
    const [right, up] = [count + 2 * n, count + 2 * n + 1];
    return told(Math.hypot(rest[right], rest[up]), Math.max(errors[right], errors[up]));
  });
  return [...taped, ...placed];
}
