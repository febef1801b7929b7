/** The words of the panel while marks are shown, and its switches for roles. */

import { html } from "./svg.js";

/** Writes what is to be done now into the panel. */
export function showWork(data, state) {
  const piece = data.pieces[state.piece];
  const station = piece.stations[state.station];
  const count = station.steps.length;
  const step = station.steps[state.step] ?? "everything";
  const error = station.error === null ? "" : ` A mark may be off by ${station.error} mm.`;
  const nudge = state.turn || state.shift.some(Boolean)
    ? ` Nudged by ${state.shift.map((mm) => `${mm} mm`).join(", ")} and ${state.turn} degrees.`
    : "";
  set("work-title", `${station.title}: ${step} (${state.step + 1} of ${count + 1})`);
  set("work-words", `${station.words.join(" ")}${error}${nudge}`);
  set("work-face", state.mirrored ? "Mirrored: for the right side up." : "For the wrong side up.");
  set("work-plan", data.summary[state.piece] ?? "");
}

/** Switches that hide and show each role; `onRole(key)` is called for each. */
export function roleSwitches(data, onRole) {
  return data.roles.filter((role) => role.key !== "SCALE").map((role) => html("label", {},
    html("input", {
      type: "checkbox", checked: true, id: `role-${role.key}`, onchange: () => onRole(role.key),
    }),
    role.meaning));
}

/** Sets the switches to what is hidden. */
export function showRoles(data, state) {
  for (const { key } of data.roles) {
    const box = document.getElementById(`role-${key}`);
    if (box) box.checked = !state.hidden.includes(key);
  }
}

/** Sets a text. */
export function set(id, text) {
  document.getElementById(id).textContent = text;
}
