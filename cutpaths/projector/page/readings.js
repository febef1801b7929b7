/** The form for tape readings, with what each is off by while it is typed. */

import { firstPairs } from "./crosses.js";
import { distance } from "./homography.js";
import { readLength, showLength, unitRead } from "./lengths.js";
import { html } from "./svg.js";

/** Rows of the form for a rig: its own readings, else the pairs to measure first. */
export function rowsFor(rig) {
  const unit = rig.unit ?? "mm";
  const rows = rig.distances.map(([i, j, mm]) => ({ from: i, to: j, text: showLength(mm, unit) }));
  if (rows.length || rig.positions.length) return rows;
  return firstPairs(rig).map(([from, to]) => ({ from, to, text: "" }));
}

/** The rig that the rows say: {rig, problems}, a problem for each row that cannot be used. */
export function rigOf(rig, rows, unit) {
  const last = rig.columns * rig.rows;
  const distances = [];
  const problems = rows.map((row) => {
    if (!row.text.trim()) return "";
    const [i, j] = [Number(row.from), Number(row.to)];
    const known = [i, j].every((n) => Number.isInteger(n) && n >= 1 && n <= last);
    if (!known) return `crosses are numbered from 1 to ${last}`;
    if (i === j) return "must be between two different crosses";
    const { mm, problem } = readLength(row.text, unit);
    if (problem) return problem;
    if (mm <= 0) return "must be more than 0";
    const same = distances.filter(([a, b]) => (a === i && b === j) || (a === j && b === i));
    const apart = same.find((each) => Math.abs(each[2] - mm) > 4 * rig.within);
    if (apart) return `does not agree with ${showLength(apart[2], unit)} above`;
    if (!same.length) distances.push([i, j, mm]);
    return "";
  });
  return { rig: { ...rig, distances }, problems };
}

/** What stands beside each row: its problem, its unit, or what it is off by. */
export function remarksOf(rig, rows, problems, crosses, view) {
  const ratio = ([i, j, mm]) => mm / distance(crosses[i - 1], crosses[j - 1]);
  const ratios = rig.distances.map(ratio).sort((a, b) => a - b);
  const usual = ratios[Math.floor(ratios.length / 2)];
  return rows.map((row, n) => {
    if (problems[n] || !row.text.trim()) return { text: problems[n], bad: Boolean(problems[n]) };
    const index = rig.distances.findIndex(([i, j]) =>
      (i === Number(row.from) && j === Number(row.to))
      || (i === Number(row.to) && j === Number(row.from)));
    const off = ratio(rig.distances[index]) / usual;
    const unit = rig.distances.length > 2 && (off > 2.2 || off < 1 / 2.2) ? unitRead(off, "mm") : "";
    if (unit) return { text: `far from the others: was it read in ${unit}?`, bad: true };
    if (!view) return { text: "", bad: false };
    const rest = view.rest[index];
    const sign = rest < 0 ? "−" : "+";
    const doubtful = Math.abs(rest) > 3 * rig.within;
    const text = `off by ${sign}${Math.abs(rest).toFixed(1)} mm`;
    return { text: doubtful ? `${text}: measure again` : text, bad: doubtful };
  });
}

/** The table of the form; `onType(row, key, text)` is called with each letter typed. */
export function formFor(rows, onType, onChoose) {
  const body = html("tbody", {});
  rows.forEach((row, n) => {
    const field = (key, label, size) => html("input", {
      type: "text",
      value: String(row[key]),
      size,
      inputMode: key === "text" ? "decimal" : "numeric",
      autocomplete: "off",
      "aria-label": `${label} of reading ${n + 1}`,
      "aria-describedby": `remark-${n}`,
      oninput: (event) => onType(n, key, event.target.value),
      onfocus: () => onChoose(n),
    });
    body.append(html("tr", {},
      html("td", {}, field("from", "First cross", 2)),
      html("td", {}, field("to", "Second cross", 2)),
      html("td", {}, field("text", "Length", 10)),
      html("td", { id: `remark-${n}` })));
  });
  const head = ["from", "to", "the tape says", ""].map((text) =>
    html("th", { scope: "col" }, text));
  return html("table", {}, html("thead", {}, html("tr", {}, ...head)), body);
}

/** Puts the remarks beside their rows. */
export function showRemarks(remarks) {
  remarks.forEach(({ text, bad }, n) => {
    const cell = document.getElementById(`remark-${n}`);
    cell.textContent = text;
    cell.className = bad ? "bad" : "good";
  });
}
