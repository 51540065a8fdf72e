// @ts-check
/** What this phone remembers, under the site's own path so that two books on one host never mix. */

/** The site's root, whatever page we are on. */
export const ROOT = new URL("../../", import.meta.url);

const PREFIX = `secondside:${ROOT.pathname}:`;

/**
 * @param {string} name
 * @returns {unknown} what was kept, or null when nothing was or the phone refuses
 */
export function recall(name) {
  try {
    return JSON.parse(localStorage.getItem(PREFIX + name) ?? "null");
  } catch {
    return null;
  }
}

/**
 * @param {string} name
 * @param {unknown} value
 * @returns {boolean} whether it is kept
 */
export function keep(name, value) {
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/**
 * @param {unknown} value
 * @returns {number[]} the positions in it, 1 to 5, each once, in order
 */
export function positionsIn(value) {
  const list = Array.isArray(value) ? value : [value];
  return [1, 2, 3, 4, 5].filter((n) => list.some((v) => Number(v) === n));
}

/** @returns {number[]} the positions of whoever holds this phone; empty: not told */
export function ownPositions() {
  return positionsIn(recall("positions"));
}

/** @param {number[]} positions */
export function setOwnPositions(positions) {
  keep("positions", positionsIn(positions));
  lookAs(null);
}

/** @returns {number[]} whose jobs pages show: those looked at in this visit, else his own; empty: everybody's */
export function shownPositions() {
  try {
    const looked = JSON.parse(sessionStorage.getItem(`${PREFIX}shown`) ?? "null");
    return Array.isArray(looked) ? positionsIn(looked) : ownPositions();
  } catch {
    return ownPositions();
  }
}

/** @param {number[] | null} positions looked at until the visit ends; null: his own again */
export function lookAs(positions) {
  try {
    if (positions) sessionStorage.setItem(`${PREFIX}shown`, JSON.stringify(positions));
    else sessionStorage.removeItem(`${PREFIX}shown`);
  } catch {
    // a phone that keeps nothing shows his own
  }
}

/** @returns {string[]} ids of the plays on his own list */
export function ownList() {
  const kept = recall("list");
  return Array.isArray(kept) ? kept.filter((id) => typeof id === "string") : [];
}

/**
 * Puts a play on the list or takes it off.
 * @param {string} id
 * @returns {boolean} whether it is on the list now
 */
export function toggleOnList(id) {
  const list = ownList();
  const on = !list.includes(id);
  keep("list", on ? [...list, id] : list.filter((other) => other !== id));
  return on;
}
