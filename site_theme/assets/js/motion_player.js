// @ts-check
/**
 * What the motion shows and how it may be steered: pure state, no page. Every function returns a new state.
 *
 * @typedef {import("./motion_track.js").Motion} Motion
 * @typedef {import("./motion_track.js").Track} Track
 *
 * @typedef {object} Steering
 * @property {Motion} motion
 * @property {string} branch key of the track that is shown
 * @property {number} t seconds from the track's start
 * @property {boolean} running
 * @property {1|0.5} speed
 * @property {number} follow position kept in view, 0: all alike
 * @property {boolean} otherSide left and right exchanged
 * @property {number} cast index into `motion.casts`: who takes whose place
 * @property {boolean} defence defenders shown
 * @property {boolean} still reduced motion: only pictures, one after the other
 * @property {number} from first second shown (clips), usually 0
 * @property {number} to last second shown
 * @property {number} since second of the picture before, for stepped pictures
 */
import { trackOf } from "./motion_track.js";

const LOOK_BACK = 1.6; // seconds before a read at which its answer begins to be shown

/**
 * @param {Motion} motion
 * @param {{branch?: string, from?: number, to?: number, still?: boolean, follow?: number}} [wish]
 * @returns {Steering}
 */
export function begin(motion, wish = {}) {
  const track = trackOf(motion, wish.branch ?? motion.tracks[0].key);
  const from = clamp(wish.from ?? 0, 0, track.duration);
  const to = clamp(wish.to ?? track.duration, from, track.duration);
  return {
    motion, branch: track.key, t: from, running: false, speed: 1, follow: wish.follow ?? 0, otherSide: false, cast: 0,
    defence: false, still: wish.still ?? false, from, to, since: from,
  };
}

/** @param {Steering} state @returns {Track} */
export function track(state) {
  return trackOf(state.motion, state.branch);
}

/** Lets `seconds` of the phone's clock pass. @param {Steering} state @param {number} seconds @returns {Steering} */
export function pass(state, seconds) {
  if (!state.running) return state;
  const t = Math.min(state.to, state.t + seconds * state.speed);
  return { ...state, t, running: t < state.to };
}

/** Runs or holds; at the end it starts again. @param {Steering} state @returns {Steering} */
export function runOrHold(state) {
  if (state.still) return nextStop(state);
  if (state.running) return { ...state, running: false };
  return { ...state, running: true, t: state.t >= state.to - 1e-6 ? state.from : state.t };
}

/** @param {Steering} state @param {number} t @returns {Steering} */
export function goTo(state, t) {
  const at = clamp(t, state.from, state.to);
  return { ...state, t: at, since: at };
}

/** One phase on (1) or back (-1). @param {Steering} state @param {1|-1} way @returns {Steering} */
export function phaseStep(state, way) {
  const opens = track(state).phases.map((phase) => phase.opens).filter((t) => t >= state.from && t <= state.to);
  const stops = way > 0 ? [...opens, state.to].filter((t) => t > state.t + 1e-3)
    : [state.from, ...opens].filter((t) => t < state.t - 0.35);
  const t = stops.length ? (way > 0 ? Math.min(...stops) : Math.max(...stops)) : way > 0 ? state.to : state.from;
  return { ...state, t, since: way > 0 ? state.t : t, running: state.running && t < state.to };
}

/** The seconds at which stepped pictures stand. @param {Steering} state @returns {number[]} */
export function stops(state) {
  const shown = track(state);
  const all = [
    state.from, state.to, ...shown.phases.map((p) => p.opens), ...shown.forks.map((f) => f.at),
    ...shown.ball.filter((b) => b.to !== 0).map((b) => b.end),
  ];
  const sorted = all.filter((t) => t >= state.from && t <= state.to).sort((a, b) => a - b);
  return sorted.filter((t, i) => i === 0 || t - sorted[i - 1] > 0.25 || t === state.to);
}

/** The next stepped picture; after the last the first. @param {Steering} state @returns {Steering} */
export function nextStop(state) {
  const later = stops(state).filter((t) => t > state.t + 1e-3);
  const t = later.length ? later[0] : state.from;
  return { ...state, running: false, t, since: later.length ? state.t : t };
}

/** The stepped picture before. @param {Steering} state @returns {Steering} */
export function previousStop(state) {
  const earlier = stops(state).filter((t) => t < state.t - 1e-3);
  const t = earlier.length ? earlier[earlier.length - 1] : state.from;
  return { ...state, running: false, t, since: earlier.length > 1 ? earlier[earlier.length - 2] : t };
}

/** @param {Steering} state @returns {Steering} */
export function changeSpeed(state) {
  return { ...state, speed: state.speed === 1 ? 0.5 : 1 };
}

/** @param {Steering} state @param {number} position @returns {Steering} */
export function follow(state, position) {
  return { ...state, follow: state.follow === position ? 0 : position };
}

/** @param {Steering} state @returns {Steering} */
export function changeSide(state) {
  return { ...state, otherSide: !state.otherSide };
}

/** @param {Steering} state @param {number} index @returns {Steering} */
export function changeCast(state, index) {
  return { ...state, cast: clamp(index, 0, state.motion.casts.length - 1) };
}

/** @param {Steering} state @returns {Steering} */
export function showDefence(state) {
  return { ...state, defence: !state.defence };
}

/**
 * Takes an answer at a fork of the shown track and runs it from shortly before the read. Defenders come out: they are
 * what is read.
 * @param {Steering} state @param {number} fork index in the track @param {number} answer index in the fork
 * @returns {Steering}
 */
export function take(state, fork, answer) {
  const read = track(state).forks[fork];
  const leads = read && read.answers[answer] ? read.answers[answer].leads : "";
  if (!leads) return state;
  const led = trackOf(state.motion, leads);
  const t = Math.max(0, Math.min(read.at, led.duration) - LOOK_BACK);
  return { ...state, branch: led.key, from: 0, to: led.duration, t, since: t, running: !state.still, defence: true };
}

/** Who stands in whose place: role -> the number shown. @param {Steering} state @returns {number[]} */
export function numbers(state) {
  return state.motion.casts[state.cast].shown;
}

/** The phase at this second. @param {Steering} state @returns {number} index */
export function phaseNow(state) {
  const phases = track(state).phases;
  let now = 0;
  for (let i = 0; i < phases.length; i += 1) if (phases[i].opens <= state.t + 1e-6) now = i;
  return now;
}

/** What is said when something changed, for people who listen. @param {Steering} state @returns {string} */
export function saying(state) {
  const shown = track(state);
  const index = phaseNow(state);
  const phase = shown.phases[index];
  return `${phase.name}, phase ${index + 1} of ${shown.phases.length}`;
}

/** @param {number} x @param {number} low @param {number} high */
function clamp(x, low, high) {
  return Math.min(high, Math.max(low, x));
}
