/** Elements of the picture. Text is always set as text, never as markup. */

const SVG = "http://www.w3.org/2000/svg";

/** An SVG element with attributes. */
export function shape(name, attributes, text) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (text !== undefined) element.textContent = text;
  return element;
}

/** A polyline through pixels. */
export function line(points, attributes) {
  const way = points.map(([x, y]) => `${x.toFixed(4)},${y.toFixed(4)}`).join(" ");
  return shape("polyline", { points: way, fill: "none", ...attributes });
}

/** An HTML element with properties and children. */
export function html(name, properties, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (key.includes("-") || key === "for" || key === "role") element.setAttribute(key, value);
    else element[key] = value;
  }
  element.append(...children);
  return element;
}
