/**
 * What the page is showing, as one plain value, and how each action changes it. Nothing here draws.
 */

export const NUDGE_MM = 0.5;
export const NUDGE_DEGREES = 0.1;
const STRENGTH_MOST = 8;

/** The state that a page starts from. */
export function initial(data) {
  return {
    mode: "calibrate",
    piece: 0,
    station: 0,
    step: 0,
    mirrored: false,
    shift: [0, 0],
    turn: 0,
    strength: 2,
    light: true,
    hidden: [],
    scale: false,
    help: false,
    panel: true,
    counts: data.pieces.map((piece) => piece.stations.map((each) => each.steps.length + 1)),
    roles: data.roles.map((role) => role.key),
  };
}

/** The state after an action; unknown actions change nothing. */
export function after(state, action, detail) {
  const change = ACTIONS[action];
  return change ? { ...state, ...change(state, detail) } : state;
}

const toggle = (key) => (state) => ({ [key]: !state[key] });
const still = { shift: [0, 0], turn: 0 };

const ACTIONS = {
  next: (state) => stepped(state, 1),
  previous: (state) => stepped(state, -1),
  nextFrame: (state) => framed(state, 1, 0),
  previousFrame: (state) => framed(state, -1, 0),
  piece: (state) => ({
    piece: (state.piece + 1) % state.counts.length, station: 0, step: 0, ...still,
  }),
  mirror: toggle("mirrored"),
  colours: toggle("light"),
  scale: toggle("scale"),
  help: toggle("help"),
  panel: toggle("panel"),
  close: (state) => (state.help ? { help: false } : { scale: false }),
  calibrate: (state) => ({ mode: state.mode === "calibrate" ? "marks" : "calibrate" }),
  left: (state) => moved(state, -NUDGE_MM, 0),
  right: (state) => moved(state, NUDGE_MM, 0),
  up: (state) => moved(state, 0, NUDGE_MM),
  down: (state) => moved(state, 0, -NUDGE_MM),
  turnLeft: (state) => ({ turn: tenth(state.turn + NUDGE_DEGREES) }),
  turnRight: (state) => ({ turn: tenth(state.turn - NUDGE_DEGREES) }),
  home: () => ({ ...still }),
  stronger: (state) => ({ strength: Math.min(STRENGTH_MOST, state.strength + 1) }),
  weaker: (state) => ({ strength: Math.max(1, state.strength - 1) }),
  role: (state, key) => ({
    hidden: state.hidden.includes(key)
      ? state.hidden.filter((each) => each !== key)
      : [...state.hidden, key].filter((each) => state.roles.includes(each)),
  }),
  showAll: () => ({ hidden: [] }),
};

/** A step on or back, over the ends of frames. */
function stepped(state, by) {
  const step = state.step + by;
  if (step >= 0 && step < state.counts[state.piece][state.station]) return { step };
  return framed(state, by, by);
}

/** A frame on or back; at the ends nothing changes. Coming back by steps, its last step shows. */
function framed(state, by, steps) {
  const station = state.station + by;
  const counts = state.counts[state.piece];
  if (station < 0 || station >= counts.length) return {};
  return { station, step: steps < 0 ? counts[station] - 1 : 0, ...still };
}

function moved(state, right, up) {
  return { shift: [state.shift[0] + right, state.shift[1] + up] };
}

function tenth(degrees) {
  return Math.round(degrees * 10) / 10;
}
