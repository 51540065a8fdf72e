// @ts-check
/**
 * Motion data as places: decodes what `generator/diagrams/motion_file.py` writes and says who is where at which second.
 * Pure. Metres, seconds; x to the right of the offence facing the basket, y toward half court.
 *
 * @typedef {object} Motion
 * @property {string} play id
 * @property {string} floor id of the floor's symbol
 * @property {string} box view box
 * @property {{name: string, shown: number[]}[]} casts numbers shown by role
 * @property {Track[]} tracks main line first
 *
 * @typedef {object} Track
 * @property {string} key
 * @property {string} name
 * @property {number} rate samples a second
 * @property {number} duration
 * @property {Axes[]} offence by player, from 1
 * @property {Axes[] | null} defence by body, from 1
 * @property {BallEvent[]} ball in order
 * @property {number} holder who has the ball first, 0 nobody
 * @property {{name: string, opens: number, lines: string[]}[]} phases
 * @property {Fork[]} forks
 *
 * @typedef {{x: Float64Array, y: Float64Array}} Axes
 * @typedef {{begin: number, end: number, from: number, to: number, kind: string}} BallEvent `to` 0: a shot
 * @typedef {{name: string, at: number, taken: number, answers: {name: string, leads: string}[]}} Fork
 */

const RIM = 1.6; // metres from the end line to which a shot flies, near enough for every floor

/** @param {any} data @returns {Motion} */
export function decode(data) {
  if (!data || data.version !== 1 || !Array.isArray(data.tracks) || !data.tracks.length) throw new Error("not a motion");
  return {
    play: String(data.play),
    floor: String(data.floor ?? ""),
    box: String(data.box ?? ""),
    casts: data.casts.map((/** @type {any} */ c) => ({ name: c[0], shown: c[1] })),
    tracks: data.tracks.map(decodeTrack),
  };
}

/** @param {any} data @returns {Track} */
export function decodeTrack(data) {
  return {
    key: data.key,
    name: data.name,
    rate: data.rate,
    duration: data.duration,
    offence: axesByNumber(data.offence, data.unit),
    defence: data.defence ? axesByNumber(data.defence, data.unit) : null,
    ball: data.ball.map((/** @type {any[]} */ e) => ({ begin: e[0], end: e[1], from: e[2], to: e[3], kind: e[4] })),
    holder: data.holder,
    phases: data.phases.map((/** @type {number} */ opens, /** @type {number} */ i) => ({
      name: data.names?.[i] ?? "", opens, lines: data.lines?.[i] ?? [],
    })),
    forks: (data.reads ?? []).map((/** @type {any} */ read, /** @type {number} */ i) => ({
      name: read.name, at: data.forks[i], taken: read.taken,
      answers: read.answers.map((/** @type {string[]} */ a) => ({ name: a[0], leads: a[1] })),
    })),
  };
}

/** @param {Record<string, number[][]>} by @param {number} unit @returns {Axes[]} */
function axesByNumber(by, unit) {
  return Object.keys(by).sort().map((key) => ({ x: summed(by[key][0], unit), y: summed(by[key][1], unit) }));
}

/** @param {number[]} differences @param {number} unit */
function summed(differences, unit) {
  const out = new Float64Array(differences.length);
  let whole = 0;
  for (let i = 0; i < differences.length; i += 1) {
    whole += differences[i];
    out[i] = whole * unit;
  }
  return out;
}

/** The track of a branch; the main line where it is not known. @param {Motion} motion @param {string} key */
export function trackOf(motion, key) {
  return motion.tracks.find((t) => t.key === key) ?? motion.tracks[0];
}

/** @param {Track} track @param {number} player @param {number} t @returns {[number, number]} */
export function placeAt(track, player, t) {
  return at(track.offence[player - 1], t * track.rate);
}

/** @param {Track} track @param {number} body @param {number} t @returns {[number, number]} */
export function defenderAt(track, body, t) {
  return track.defence ? at(track.defence[body - 1], t * track.rate) : [0, 0];
}

/** @param {Axes} axes @param {number} u samples from the start @returns {[number, number]} */
function at(axes, u) {
  return [hermite(axes.x, u), hermite(axes.y, u)];
}

/**
 * Cubic Hermite through samples, tangents by central differences, one-sided at both ends.
 * @param {Float64Array} values @param {number} u samples from the start
 */
export function hermite(values, u) {
  const last = values.length - 1;
  const i = Math.min(Math.max(Math.floor(u), 0), last - 1);
  const k = Math.min(Math.max(u - i, 0), 1);
  const a = values[i];
  const b = values[i + 1];
  const ta = i > 0 ? (b - values[i - 1]) / 2 : b - a;
  const tb = i + 2 <= last ? (values[i + 2] - a) / 2 : b - a;
  const k2 = k * k;
  const k3 = k2 * k;
  return (2 * k3 - 3 * k2 + 1) * a + (k3 - 2 * k2 + k) * ta + (3 * k2 - 2 * k3) * b + (k3 - k2) * tb;
}

/**
 * The ball: in somebody's hands (`holder`), or on its way straight from where it left to where it is caught.
 * @param {Track} track @param {number} t @returns {{x: number, y: number, holder: number}}
 */
export function ballAt(track, t) {
  let holder = track.holder;
  let point = /** @type {[number, number]} */ ([0, RIM]);
  for (const event of track.ball) {
    if (event.begin >= t - 1e-9) break;
    if (t < event.end) {
      const k = (t - event.begin) / Math.max(1e-6, event.end - event.begin);
      const from = event.from ? placeAt(track, event.from, event.begin) : point;
      const to = event.to ? placeAt(track, event.to, event.end) : /** @type {[number, number]} */ ([0, RIM]);
      return { x: from[0] + k * (to[0] - from[0]), y: from[1] + k * (to[1] - from[1]), holder: 0 };
    }
    holder = event.to;
    if (!holder) point = [0, RIM];
  }
  const [x, y] = holder ? placeAt(track, holder, t) : point;
  return { x, y, holder };
}
