/** The marks of a frame, and the scale check, warped by the calibration. */

import { MIRROR, apply, depthAt, motion, product } from "./homography.js";
import { line, shape } from "./svg.js";

const HORIZON = 1e-3; // of the depth at the picture's middle: what is farther is not drawn

/** From mm of the piece to pixels: laid, mirrored, nudged, on the table, on the picture. */
export function placeOf(state, station, view) {
  const radians = (state.turn * Math.PI) / 180;
  const nudge = motion([Math.cos(radians), Math.sin(radians), ...state.shift]);
  const home = motion(station.home);
  const laid = state.mirrored ? product(MIRROR, home) : home;
  const table = product(motion(station.room), product(nudge, laid));
  return product(view.toPixel, table);
}

/** Draws the state's frame into a group. */
export function drawMarks(group, data, state, view, width) {
  const piece = data.pieces[state.piece];
  const station = piece.stations[state.station];
  const place = placeOf(state, station, view);
  const step = station.steps[state.step];
  const roles = new Map(data.roles.map((role) => [role.key, role]));
  for (const each of [...piece.lines, ...station.extra]) {
    const wanted = step === undefined || each.step === step || each.role === "CUT";
    if (!wanted || state.hidden.includes(each.role)) continue;
    const faint = each.role === "CUT" && step !== undefined && each.step !== step;
    const ink = inkOf(roles.get(each.role), state, width, faint);
    const points = each.closed ? [...each.points, each.points[0]] : each.points;
    for (const part of warped(place, points)) {
      group.append(line(part, { ...ink, "data-role": each.role, "data-step": each.step }));
    }
  }
  for (const letter of piece.letters) drawText(group, place, letter.at, letter.text, state, width);
}

/** All lines of a station as they lie in the picture, whatever step is shown. */
export function linesOf(data, state, view) {
  const piece = data.pieces[state.piece];
  const station = piece.stations[state.station];
  const place = placeOf(state, station, view);
  return [...piece.lines, ...station.extra].flatMap(({ points, closed }) =>
    warped(place, closed ? [...points, points[0]] : points));
}

/** Draws the scale squares about the middle of the picture's table. */
export function drawScale(group, data, state, view, width) {
  const ink = {
    stroke: plain(state), "stroke-width": lineWidth(state, width), "data-role": "SCALE",
  };
  for (const part of scaleLines(data, view)) group.append(line(part, ink));
  for (const [size, text] of data.scale) {
    const below = size > 90;
    drawText(group, view.toPixel, [0, below ? -size / 2 - 4 : 0], text, state, width, below);
  }
}

/** The scale squares as they lie in the picture. */
export function scaleLines(data, view) {
  return data.scale.flatMap(([size]) => {
    const half = size / 2;
    const ring = [[-half, -half], [half, -half], [half, half], [-half, half], [-half, -half]];
    return warped(view.toPixel, ring);
  });
}

/** The width of lines, in pixels: the strength is for a picture of 1920. */
export function lineWidth(state, width) {
  return (state.strength * width) / 1920;
}

/** The ink of plain lines and letters. */
export function plain(state) {
  return state.light ? "#ffffff" : "#000000";
}

function inkOf(role, state, width, faint) {
  const stroke = state.light ? role.light : role.dark;
  const ink = { stroke, "stroke-width": lineWidth(state, width) };
  if (role.pattern.length) {
    ink["stroke-dasharray"] = role.pattern.map((mm) => (mm * width) / 960).join(" ");
  }
  return faint ? { ...ink, "stroke-opacity": 0.5 } : ink;
}

/** The parts of a line that are before the horizon, in pixels. */
export function warped(place, points) {
  const least = HORIZON * Math.abs(place[8]);
  const parts = [];
  for (let n = 1; n < points.length; n += 1) {
    const part = before(place, points[n - 1], points[n], least);
    if (!part) continue;
    const pixels = part.map((p) => apply(place, p));
    const last = parts[parts.length - 1];
    const joins = last && last[last.length - 1].every((v, k) => v === pixels[0][k]);
    if (joins) last.push(pixels[1]);
    else parts.push(pixels);
  }
  return parts;
}

/** A segment cut at the horizon; null where all of it lies beyond. */
function before(place, start, end, least) {
  const [near, far] = [depthAt(place, start) - least, depthAt(place, end) - least];
  if (near <= 0 && far <= 0) return null;
  if (near > 0 && far > 0) return [start, end];
  const part = near / (near - far);
  const cut = [start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1])];
  return near > 0 ? [start, cut] : [cut, end];
}

/** Writes a text in the middle over a place, or hanging from it. */
function drawText(group, place, at, text, state, width, hangs = false) {
  if (depthAt(place, at) <= HORIZON * Math.abs(place[8])) return;
  const [x, y] = apply(place, at);
  const size = ((12 + 6 * state.strength) * width) / 1920;
  group.append(shape("text", {
    x,
    y: inView(y, size, group.viewBox.baseVal.height),
    fill: plain(state),
    "font-size": size,
    "text-anchor": "middle",
    "dominant-baseline": hangs ? "hanging" : "auto",
  }, text));
}

/** The foot of a text that would be cut by the picture's upper or lower edge, moved inward. */
function inView(y, size, height) {
  if (y > height - size / 4 && y < height + size) return height - size / 4;
  return y > 0 && y < size ? size : y;
}
