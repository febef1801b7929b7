/** What each key does; the same table makes the help. */

import { html } from "./svg.js";

/** Key, action, what it does; a key is named as the browser names it. */
export const KEYS = [
  ["n", "next", "next step, then next frame"],
  ["p", "previous", "step before"],
  ["PageDown", "nextFrame", "next frame"],
  ["PageUp", "previousFrame", "frame before"],
  ["b", "piece", "other piece"],
  ["m", "mirror", "mirror: right side or wrong side up"],
  ["ArrowLeft", "left", "nudge 0.5 mm left"],
  ["ArrowRight", "right", "nudge 0.5 mm right"],
  ["ArrowUp", "up", "nudge 0.5 mm up"],
  ["ArrowDown", "down", "nudge 0.5 mm down"],
  ["[", "turnLeft", "turn 0.1 degree counter-clockwise"],
  ["]", "turnRight", "turn 0.1 degree clockwise"],
  ["0", "home", "undo nudges and turns"],
  ["+", "stronger", "thicker lines"],
  ["-", "weaker", "thinner lines"],
  ["d", "colours", "light on dark, or dark on light"],
  ["a", "showAll", "show all roles again"],
  ["s", "scale", "scale check: 100 mm and 3 in"],
  ["c", "calibrate", "calibrate, or back to the marks"],
  ["t", "panel", "take the panel away, or bring it back"],
  ["f", "full", "full screen"],
  ["h", "help", "this help"],
  ["Escape", "close", "close help or scale check"],
];

const SHOWN = {
  ArrowLeft: "←", ArrowRight: "→", ArrowUp: "↑", ArrowDown: "↓",
  PageDown: "Page down", PageUp: "Page up",
};

/** The action of a key; undefined while a person types, or where there is none. */
export function actionOf(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) return undefined;
  const typing = /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName)
    && event.target.type !== "checkbox";
  if (typing && event.key !== "Escape") return undefined;
  const key = { "=": "+", _: "-", "?": "h" }[event.key] ?? event.key;
  const found = KEYS.find(([name]) => name.toLowerCase() === key.toLowerCase());
  return found?.[1];
}

/** The help, on one screen. */
export function helpRows() {
  return KEYS.map(([key, , text]) => html("div", {},
    html("kbd", {}, SHOWN[key] ?? key), html("span", {}, text)));
}
