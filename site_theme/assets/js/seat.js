// @ts-check
/** Who opened the book: told by the lock when there is one; an open copy on the coach's computer tells nobody. */
import { keep, recall, ROOT, setOwnPositions } from "./phone.js";

/** @typedef {{who: string, positions: number[], staff: boolean}} Seat */

/** @type {Promise<Seat | null> | undefined} */
let told;

/** @returns {boolean} whether this copy of the book is locked */
export function isLocked() {
  return document.querySelector('script[src$="_v/client.js"]') !== null;
}

/** @returns {Promise<Seat | null>} null in an open copy, or when the lock does not answer */
export function seat() {
  told ??= isLocked() ? ask() : Promise.resolve(null);
  return told;
}

/** @returns {Promise<Seat | null>} */
async function ask() {
  try {
    const answer = await fetch(new URL("_v/me", ROOT));
    const me = answer.ok ? await answer.json() : null;
    if (!me || typeof me.who !== "string" || !Array.isArray(me.positions)) return null;
    return { who: me.who, positions: me.positions.map(Number), staff: me.staff === true };
  } catch {
    return null;
  }
}

/** The first time a seat is seen its positions become this phone's; after that the player's own choice stands. */
export async function takeSeat() {
  const me = await seat();
  if (!me || recall("person") === me.who) return;
  keep("person", me.who);
  if (me.positions.length) setOwnPositions(me.positions);
}

/**
 * The way to the staff's pages: in an open copy always, in a locked one for staff seats.
 * @param {Document} page
 */
export async function showStaffWay(page) {
  const me = await seat();
  if (isLocked() && !me?.staff) return;
  for (const way of page.querySelectorAll("[data-for-staff]")) /** @type {HTMLElement} */ (way).hidden = false;
}
