/** What the browser keeps: the calibration, one for each size of picture. Works without storage. */

const KEY = "cutpaths-rig";

/** Keeps a rig for pictures of its size. */
export function keep(rig) {
  try {
    localStorage.setItem(`${KEY}-${rig.width}x${rig.height}`, JSON.stringify(rig));
    return true;
  } catch {
    return false;
  }
}

/** The rig kept for pictures of a size; null where there is none. */
export function kept(width, height) {
  try {
    const found = JSON.parse(localStorage.getItem(`${KEY}-${width}x${height}`));
    const whole = found && Array.isArray(found.distances) && Array.isArray(found.positions);
    return whole && found.width === width && found.height === height ? found : null;
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
