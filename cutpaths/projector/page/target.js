/** The target: numbered crosses over the whole picture. */

import { lineWidth, plain } from "./marks.js";
import { line, shape } from "./svg.js";

/** Draws all crosses into a group; those of the reading that is being typed are larger. */
export function drawTarget(group, crosses, { width, height, columns }, state, chosen) {
  const size = width / 1000;
  crosses.forEach(([x, y], n) => {
    const number = n + 1;
    const arm = size * (chosen.includes(number) ? 30 : 18);
    const ink = { stroke: plain(state), "stroke-width": lineWidth(state, width) };
    group.append(line([[x - arm, y], [x + arm, y]], ink));
    group.append(line([[x, y - arm], [x, y + arm]], ink));
    // Numbers of inner crosses stand away from the middle, where the panel is.
    const inner = n % columns !== 0 && number % columns !== 0;
    const [left, above] = [(x > width / 2) !== inner, y > height / 2];
    group.append(shape("text", {
      x: x + (left ? -6 : 6) * size,
      y: y + (above ? -6 * size : 20 * size),
      fill: plain(state),
      "font-size": 16 * size,
      "text-anchor": left ? "end" : "start",
    }, String(number)));
  });
}
