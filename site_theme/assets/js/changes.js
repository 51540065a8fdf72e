// @ts-check
/** What changed for whoever holds this phone: the plays' prints of today against those he last saw. */
import { keep, ownPositions, recall, ROOT } from "./phone.js";
import { isLocked } from "./seat.js";

/** @typedef {Record<string, string[]>} Prints by play id: one print for each position, 1 to 5 */

/**
 * @param {Prints} before
 * @param {Prints} now
 * @param {number[]} positions empty: all
 * @returns {{play: string, isNew: boolean, positions: number[]}[]} plays that differ, in the order of `now`
 */
export function changed(before, now, positions) {
  const wanted = positions.length ? positions : [1, 2, 3, 4, 5];
  return Object.entries(now).flatMap(/** @returns {{play: string, isNew: boolean, positions: number[]}[]} */ ([play, prints]) => {
    const old = before[play];
    if (!old) return [{ play, isNew: true, positions: [] }];
    const moved = wanted.filter((n) => old[n - 1] !== prints[n - 1]);
    return moved.length ? [{ play, isNew: false, positions: moved }] : [];
  });
}

/** @param {Document} page */
export async function mountChanges(page) {
  const place = /** @type {HTMLElement | null} */ (page.querySelector("[data-changes]"));
  if (!place?.dataset.changes) return;
  const now = await prints(place.dataset.changes);
  if (!now) return;
  const before = recall("prints");
  if (!isPrints(before)) {
    keep("prints", now); // the first visit: nothing can have changed
    return;
  }
  const found = changed(before, now, ownPositions());
  if (!show(page, place, found, () => keep("prints", now)) && (differs(before, now) || (await bookIsNew()))) {
    const words = page.createElement("p");
    words.textContent = "The book has changed. Nothing changed for you.";
    place.replaceChildren(words);
    place.hidden = false;
    keep("prints", now);
  }
}

/** @param {Prints} before @param {Prints} now @returns {boolean} whether anything changed for anybody */
export function differs(before, now) {
  return JSON.stringify(Object.entries(before).sort()) !== JSON.stringify(Object.entries(now).sort());
}

/** @returns {Promise<boolean>} whether the lock tells of pages not seen yet; an open copy tells nothing */
async function bookIsNew() {
  if (!isLocked()) return false;
  try {
    const fresh = await (await fetch(new URL("_v/fresh", ROOT))).json();
    return Array.isArray(fresh.pages) && fresh.pages.length > 0;
  } catch {
    return false;
  }
}

/**
 * @param {Document} page
 * @param {HTMLElement} place
 * @param {ReturnType<typeof changed>} found
 * @param {() => void} seen
 * @returns {boolean} whether there was anything to show
 */
function show(page, place, found, seen) {
  const title = page.createElement("h2");
  title.textContent = "Changed for you";
  const list = page.createElement("ul");
  list.className = "links";
  for (const change of found) {
    const link = page.querySelector(`.play-line[data-play="${change.play}"] a`);
    if (!link) continue;
    const line = page.createElement("li");
    const note = change.isNew ? "new play" : change.positions.length === 5 ? "" : `your job as ${change.positions.join(" and ")}`;
    line.append(link.cloneNode(true), note ? ` ${note}` : "");
    list.append(line);
  }
  if (!list.children.length) return false;
  const button = page.createElement("button");
  button.type = "button";
  button.className = "button button-plain";
  button.textContent = "Seen";
  button.addEventListener("click", () => {
    seen();
    place.hidden = true;
  });
  place.replaceChildren(title, list, button);
  place.hidden = false;
  return true;
}

/**
 * @param {string} address from the site's root
 * @returns {Promise<Prints | null>}
 */
async function prints(address) {
  try {
    const answer = await fetch(new URL(address, ROOT));
    const told = answer.ok ? await answer.json() : null;
    return told?.version === 1 && isPrints(told.plays) ? told.plays : null;
  } catch {
    return null;
  }
}

/**
 * @param {unknown} value
 * @returns {value is Prints}
 */
function isPrints(value) {
  return (
    typeof value === "object" && value !== null && !Array.isArray(value) &&
    Object.values(value).every((five) => Array.isArray(five) && five.length === 5 && five.every((p) => typeof p === "string"))
  );
}
