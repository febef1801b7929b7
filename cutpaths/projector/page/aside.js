/** Where the panel stands: clear of the crosses, or where it hides the fewest marks. */

// Across and down the window, from 0 at the left and at the top to 1.
const PLACES = [
  ["aside east north", 1, 0], ["aside east south", 1, 1], ["aside west north", 0, 0],
  ["aside west south", 0, 1], ["", 0.5, 0.5],
];
const PARTS = 64; // places along each line that are looked at
const MARGIN = 0.03; // of the panel's size, kept clear on each side

/**
 * Puts the panel where it hides the least of some lines, given as polylines in pixels of the
 * picture: into a corner of the window, or into its middle. A later place must hide less than one
 * before it.
 */
export function standAside(panel, lines, ratio) {
  const { width, height } = panel.getBoundingClientRect();
  const [wide, high] = [(1 + 2 * MARGIN) * width, (1 + 2 * MARGIN) * height];
  const hidden = (across, down) => {
    const left = across * (window.innerWidth - wide);
    const top = down * (window.innerHeight - high);
    const inside = (x, y) => x >= left && x <= left + wide && y >= top && y <= top + high;
    return lines.reduce((sum, line) => sum + lengthIn(line, ratio, inside), 0);
  };
  const found = PLACES.map(([name, across, down]) => [hidden(across, down), name]);
  const [, best] = found.reduce((a, b) => (b[0] < a[0] - 1 ? b : a));
  panel.style.left = "";
  panel.className = best;
}

/** Puts the panel into the middle, between two columns of crosses. */
export function standBetween(panel, { columns, width, inset }, ratio) {
  panel.className = "";
  const step = (width - 2 * inset) / (columns - 1);
  const shift = columns % 2 ? step / 2 / ratio : 0;
  panel.style.left = shift ? `${window.innerWidth / 2 + shift}px` : "";
}

/** How much of a polyline is in a part of the window, in its pixels. */
function lengthIn(points, ratio, inside) {
  let sum = 0;
  for (let n = 1; n < points.length; n += 1) {
    const [[x, y], [u, v]] = [points[n - 1], points[n]];
    let count = 0;
    for (let k = 0; k < PARTS; k += 1) {
      const part = (k + 0.5) / PARTS;
      if (inside((x + part * (u - x)) / ratio, (y + part * (v - y)) / ratio)) count += 1;
    }
    sum += (Math.hypot(u - x, v - y) * count) / PARTS / ratio;
  }
  return sum;
}
