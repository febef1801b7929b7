/** Puts the page together: reads its data, listens, and draws after each change. */

import { standAside, standBetween } from "./aside.js";
import { calibrated } from "./calibrate.js";
import { crossesOf } from "./crosses.js";
import { spare } from "./fit.js";
import { formFor, showRemarks } from "./forms.js";
import { actionOf, helpRows } from "./keys.js";
import { onCloth } from "./lens.js";
import { drawMarks, drawScale, linesOf, scaleLines } from "./marks.js";
import { roleSwitches, set, showRoles, showWork } from "./panel.js";
import { EMPTY, KINDS, remarksOf, rigOf, rowsFor } from "./readings.js";
import { freshText, readRig, savedText } from "./rig_file.js";
import { after, initial } from "./state.js";
import { forget, keep, kept } from "./store.js";
import { drawTarget } from "./target.js";
import { verdict } from "./verdict.js";

const HOW = {
  tape: "Lay a tape from the middle of one cross to the middle of another.",
  mat: "Read where the middle of each cross falls on the mat: right and up from one of its corners.",
};
const LARGEST = 100_000; // characters of a rig file
const find = (id) => document.getElementById(id);
const data = JSON.parse(find("data").textContent);
let state = initial(data);
let rig;
let rows;
let kind = "tape";
let view = null;
let chosen = [];

/** The size of the picture in the screen's own pixels. */
function pictureSize() {
  const ratio = window.devicePixelRatio;
  return [Math.round(window.innerWidth * ratio), Math.round(window.innerHeight * ratio)];
}

/** The rig for this window: what the browser kept, else the file's, else a new one. */
function rigHere() {
  const [width, height] = pictureSize();
  const fits = (text) => {
    const found = text ? readRig(text).rig : null;
    return found && found.width === width && found.height === height ? found : null;
  };
  return fits(kept(width, height, data.rig)) ?? fits(data.rig)
    ?? readRig(freshText(width, height, data.unit)).rig;
}

function take(next) {
  rig = next;
  kind = rig.positions.length && !rig.distances.length ? "mat" : "tape";
  find("unit").value = rig.unit;
  rows = rowsFor(rig);
  showForm();
}

/** The form of a kind, with its rows. */
function showForm() {
  for (const each of KINDS) find(`kind-${each}`).checked = each === kind;
  set("how", HOW[kind]);
  find("form").replaceChildren(formFor(kind, rows[kind], type, choose));
  change(rows);
}

/** After each letter typed: the fit, and what each reading is off by. */
function change(next) {
  rows = next;
  const { rig: read, problems } = rigOf(rig, rows, find("unit").value);
  rig = read;
  const sound = KINDS.every((each) => problems[each].every((problem) => !problem));
  const found = sound && rig.distances.length + rig.positions.length ? calibrated(rig) : null;
  const cloth = found?.view ? onCloth(found.view, rig, crossesOf(rig)) : {};
  view = cloth.view ?? null;
  if (cloth.finding) found.findings.push(cloth.finding);
  const remarks = remarksOf(rig, rows, problems, found);
  showRemarks(remarks[kind]);
  set("fit", verdict({ rig, problems, found, kind, remarks, over: spare(rig) }));
  if (view) keep(rig.width, rig.height, savedText(rig), data.rig ?? "");
  draw();
}

function type(row, key, text) {
  const typed = rows[kind].map((each, n) => (n === row ? { ...each, [key]: text } : each));
  change({ ...rows, [kind]: typed });
}

function choose(n) {
  const row = rows[kind][n];
  chosen = (kind === "tape" ? [row.from, row.to] : [row.cross]).map(Number);
  draw();
}

/** Whether marks may be shown: the calibration is for the pixels of this window. */
function refusal() {
  const [width, height] = pictureSize();
  if (!view) return "Not calibrated: measure the crosses first (c).";
  if (rig.width === width && rig.height === height) return "";
  return `The calibration is for ${rig.width} × ${rig.height} pixels, this window has `
    + `${width} × ${height}: go to full screen (f), or calibrate again.`;
}

function draw() {
  const [width, height] = pictureSize();
  const picture = find("picture");
  picture.setAttribute("viewBox", `0 0 ${width} ${height}`);
  picture.replaceChildren();
  const calibrating = state.mode === "calibrate";
  const stopped = calibrating ? "" : refusal();
  if (calibrating) drawTarget(picture, crossesOf(rig), rig, state, chosen);
  else if (!stopped && !state.scale) drawMarks(picture, data, state, view, width);
  const scaled = state.scale && !refusal();
  if (scaled) drawScale(picture, data, state, view, width);
  document.body.className = state.light ? "light-on-dark" : "dark-on-light";
  find("calibrate").hidden = !calibrating;
  find("work").hidden = calibrating;
  find("panel").hidden = !state.panel || state.help;
  find("help").hidden = !state.help;
  set("refusal", state.scale && !stopped ? refusal() : stopped);
  showWork(data, state);
  showRoles(data, state);
  const ratio = window.devicePixelRatio;
  if (scaled) standAside(find("panel"), scaleLines(data, view), ratio);
  else if (calibrating || stopped) standBetween(find("panel"), rig, ratio);
  else standAside(find("panel"), linesOf(data, state, view), ratio);
}

function act(action, detail) {
  if (action === "full") {
    if (document.fullscreenElement) document.exitFullscreen();
    else document.documentElement.requestFullscreen().catch(() => {});
  }
  const { help } = state;
  state = after(state, action, detail);
  draw();
  if (state.help !== help) find(state.help ? "help" : "panel").querySelector("[data-action=help]")?.focus();
}

function save() {
  const url = URL.createObjectURL(new Blob([savedText(rig)], { type: "application/toml" }));
  const anchor = document.createElement("a");
  anchor.href = url;
  anchor.download = "rig.toml";
  anchor.click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}

async function load(event) {
  const [file] = event.target.files;
  event.target.value = "";
  if (!file) return;
  const small = file.size <= LARGEST;
  const found = small ? readRig(await file.text()) : { problem: "the file is too large" };
  if (found.problem) set("fit", `${file.name}: ${found.problem}.`);
  else take(found.rig);
}

document.addEventListener("keydown", (event) => {
  const action = actionOf(event);
  if (!action) return;
  event.preventDefault();
  act(action);
});
for (const button of document.querySelectorAll("button[data-action]")) {
  button.addEventListener("click", () => act(button.dataset.action));
}
for (const each of KINDS) {
  find(`kind-${each}`).addEventListener("change", () => {
    kind = each;
    chosen = [];
    showForm();
  });
}
find("more").addEventListener("click", () => {
  rows = { ...rows, [kind]: [...rows[kind], EMPTY[kind]] };
  showForm();
  find("form").querySelector("tbody tr:nth-last-child(2) input").focus();
});
find("save").addEventListener("click", save);
find("load").addEventListener("change", load);
find("fresh").addEventListener("click", () => {
  const [width, height] = pictureSize();
  forget(width, height);
  take(rigHere());
});
find("unit").addEventListener("change", () => change(rows));
window.addEventListener("resize", () => (view ? draw() : take(rigHere())));
find("roles").replaceChildren(...roleSwitches(data, (key) => act("role", key)));
find("keys").replaceChildren(...helpRows());
find("cautions").textContent = data.cautions.join(" ");
take(rigHere());
if (view) act("calibrate");
