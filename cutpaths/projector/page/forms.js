/** The forms for readings, a row for each, with what is said about it beside and under it. */

import { html } from "./svg.js";

// Key, head of the column, its name for those who do not see it, and how wide it is.
const COLUMNS = {
  tape: [
    ["from", "from", "First cross", "numeric"],
    ["to", "to", "Second cross", "numeric"],
    ["text", "the tape says", "Length", "decimal"],
  ],
  mat: [
    ["cross", "cross", "Cross", "numeric"],
    ["right", "right", "Right", "decimal"],
    ["up", "up", "Up", "decimal"],
  ],
};
const READING = { tape: "reading", mat: "mat reading" };

/** The table of a form; `onType(row, key, text)` is called with each letter typed. */
export function formFor(kind, rows, onType, onChoose) {
  const body = html("tbody", {});
  rows.forEach((row, n) => {
    const fields = COLUMNS[kind].map(([key, , label, mode]) => html("td", {}, html("input", {
      type: "text",
      value: String(row[key]),
      inputMode: mode,
      autocomplete: "off",
      "aria-label": `${label} of ${READING[kind]} ${n + 1}`,
      "aria-describedby": `remark-${n} problem-${n}`,
      oninput: (event) => onType(n, key, event.target.value),
      onfocus: () => onChoose(n),
    })));
    const wide = html("td", { id: `problem-${n}`, colSpan: fields.length + 1, className: "bad" });
    body.append(
      html("tr", {}, ...fields, html("td", { id: `remark-${n}`, className: "remark" })),
      html("tr", { hidden: true }, wide),
    );
  });
  const heads = [...COLUMNS[kind].map(([, head]) => head), ""];
  const head = heads.map((text) => html("th", { scope: "col" }, text));
  return html("table", { className: kind }, html("thead", {}, html("tr", {}, ...head)), body);
}

/** Puts the remarks beside and under their rows. */
export function showRemarks(remarks) {
  remarks.forEach(({ text, problem }, n) => {
    document.getElementById(`remark-${n}`).textContent = text;
    const wide = document.getElementById(`problem-${n}`);
    wide.textContent = problem;
    wide.parentElement.hidden = !problem;
  });
}
