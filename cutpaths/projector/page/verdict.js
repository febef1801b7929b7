/** The one line above the form: how the calibration stands, and what to do next. */

/** What `found`, what `calibrated` says of a rig (null for none), amounts to. */
export function verdict({ rig, problems, found, kind, remarks, over }) {
  const shown = remarks[kind].some(({ problem }) => problem);
  if (Object.values(problems).flat().some(Boolean)) {
    return shown ? "Mend the readings marked below." : `Mend the readings of the ${other(kind)}.`;
  }
  const count = rig.distances.length + rig.positions.length;
  if (count < 3 && over < 0) return `Measure ${-over} more.`;
  if (found.findings.length) {
    const [first] = found.findings;
    const hint = first.hint && ` ${first.hint}${first.hint.endsWith("?") ? "" : "."}`;
    if (over < 0 && first.problem.startsWith("must be at least")) return `Measure ${-over} more.${hint}`;
    if (shown) return "Not calibrated: mend what is marked below.";
    return `Not calibrated: ${spoken(first.key)} ${first.problem}.${hint}`;
  }
  return calibratedLine(found, over);
}

function calibratedLine({ misfit, worst, next }, over) {
  const more = next ? ` Measure ${next[0]}-${next[1]} next to make it better.` : "";
  if (!over) return `Calibrated, but nothing checks the readings.${more}`;
  return `Calibrated: readings agree within ${misfit.toFixed(1)} mm, `
    + `a mark may be off by up to ${worst.toFixed(1)} mm.${more}`;
}

function other(kind) {
  return kind === "tape" ? "ruled mat" : "tape";
}

/** A key of the rig file in words. */
function spoken(key) {
  const [table, name] = key.split(".");
  const words = { distances: "the readings", positions: "the readings", units: "the readings" };
  if (table === "lens") return "readings from the lens";
  if (!name) return words[table] ?? key;
  return table === "positions" ? `cross ${name}` : `reading ${name}`;
}
