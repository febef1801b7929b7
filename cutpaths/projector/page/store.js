/**
 * What the browser keeps: a rig file's text, one for each size of picture. Works without storage.
 *
 * `from` is the rig file that the page was made with, empty without one: once that is another, what
 * was kept is out of date.
 */

const KEY = "cutpaths-rig";

/** Keeps a rig's text for pictures of a size. */
export function keep(width, height, text, from) {
  try {
    localStorage.setItem(`${KEY}-${width}x${height}`, JSON.stringify({ text, from }));
    return true;
  } catch {
    return false;
  }
}

/** The text kept for pictures of a size; null where there is none, or it is out of date. */
export function kept(width, height, from) {
  try {
    const found = JSON.parse(localStorage.getItem(`${KEY}-${width}x${height}`));
    return typeof found?.text === "string" && (!from || found.from === from) ? found.text : null;
  } catch {
    return null;
  }
}

/** Forgets it. */
export function forget(width, height) {
  try {
    localStorage.removeItem(`${KEY}-${width}x${height}`);
  } catch {
    // Without storage there is nothing to forget.
  }
}
