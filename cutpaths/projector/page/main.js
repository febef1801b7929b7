/** Puts the page together: reads its data, listens, and draws after each change. */

import { crossesOf, usualInset } from "./crosses.js";
import { fitView, spare } from "./fit.js";
import { actionOf, helpRows } from "./keys.js";
import { drawMarks, drawScale } from "./marks.js";
import { roleSwitches, set, showRoles, showWork } from "./panel.js";
import { formFor, remarksOf, rigOf, rowsFor, showRemarks } from "./readings.js";
import { readRig, rigText } from "./rig_file.js";
import { after, initial } from "./state.js";
import { forget, keep, kept } from "./store.js";
import { drawTarget } from "./target.js";

const find = (id) => document.getElementById(id);
const data = JSON.parse(find("data").textContent);
let state = initial(data);
let rig;
let rows;
let problems = [];
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
  const file = data.rig;
  const inset = usualInset(width, height);
  const fresh = {
    name: file?.name ?? "Projector", width, height, columns: 4, rows: 3, inset, within: 1,
    distances: [], positions: [],
  };
  const fits = file && file.width === width && file.height === height;
  return kept(width, height) ?? (fits ? file : fresh);
}

function take(next) {
  rig = next;
  rows = rowsFor(rig);
  find("unit").value = rig.unit ?? find("unit").value;
  find("form").replaceChildren(formFor(rows, type, choose));
  change(rows);
}

/** After each letter typed: the fit, and what each reading is off by. */
function change(next) {
  rows = next;
  const read = rigOf(rig, rows, find("unit").value);
  ({ problems } = read);
  rig = read.rig;
  const crosses = crossesOf(rig);
  const sound = problems.every((problem) => !problem);
  view = sound ? fitView(rig.width, rig.height, crosses, rig) : null;
  if (view && !view.toTable.every(Number.isFinite)) view = null;
  showRemarks(remarksOf(rig, rows, problems, crosses, view));
  set("fit", verdict(sound));
  if (view) keep(rig);
  draw();
}

function type(row, key, text) {
  change(rows.map((each, n) => (n === row ? { ...each, [key]: text } : each)));
}

function verdict(sound) {
  if (!sound) return "Mend the readings marked below.";
  const more = spare(rig);
  if (more < 0) return `Measure ${-more} more.`;
  if (!view) return "These readings leave the picture free: measure a diagonal.";
  if (!more) return "Calibrated, but nothing checks the readings: measure one more.";
  const size = Math.sqrt(view.rest.reduce((sum, r) => sum + r * r, 0) / more);
  if (size > 4 * rig.within) return `The readings disagree by about ${size.toFixed(1)} mm.`;
  return `Calibrated: readings agree within ${size.toFixed(1)} mm.`;
}

function choose(n) {
  chosen = [Number(rows[n].from), Number(rows[n].to)];
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
  if (calibrating) drawTarget(picture, crossesOf(rig), width, height, state, chosen);
  else if (!stopped) drawMarks(picture, data, state, view, width);
  if (state.scale && view && !refusal()) drawScale(picture, data, state, view, width);
  document.body.className = state.light ? "light-on-dark" : "dark-on-light";
  find("calibrate").hidden = !calibrating;
  find("work").hidden = calibrating;
  find("panel").hidden = !state.panel;
  find("help").hidden = !state.help;
  set("refusal", state.scale && !stopped ? refusal() : stopped);
  showWork(data, state);
  showRoles(data, state);
}

function act(action, detail) {
  if (action === "full") {
    if (document.fullscreenElement) document.exitFullscreen();
    else document.documentElement.requestFullscreen().catch(() => {});
  }
  state = after(state, action, detail);
  draw();
}

function save() {
  const url = URL.createObjectURL(new Blob([rigText(rig)], { type: "application/toml" }));
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
  const found = file.size > 1e6 ? { problem: "the file is too large" } : readRig(await file.text());
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
find("more").addEventListener("click", () => {
  rows = [...rows, { from: "", to: "", text: "" }];
  find("form").replaceChildren(formFor(rows, type, choose));
  change(rows);
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
find("unit").value = data.unit;
find("roles").replaceChildren(...roleSwitches(data, (key) => act("role", key)));
find("keys").replaceChildren(...helpRows());
find("cautions").textContent = data.cautions.join(" ");
take(rigHere());
if (view) act("calibrate");
