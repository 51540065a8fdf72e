// @ts-check
/** Wiring: after every page change each part mounts itself on what it finds. Heavy parts load only where needed. */
import { mountChanges } from "./changes.js";
import { mountFind } from "./find.js";
import { mountFolds, openAsked } from "./folds.js";
import { mountGames } from "./games.js";
import { mountMyPage } from "./my_page.js";
import { followHashLink, mountPlayTools } from "./play_tools.js";
import { mountPosition } from "./position.js";
import { showStaffWay, takeSeat } from "./seat.js";
import { mountWhich } from "./which_plays.js";

/** @param {Document} page */
async function mountPage(page) {
  mountGames(page);
  openAsked(page);
  await takeSeat();
  mountPosition(page);
  mountWhich(page);
  void mountChanges(page);
  void showStaffWay(page);
  mountPlayTools(page);
  void mountMyPage(page);
  requestAnimationFrame(() => reachTables(page));
  void mountHeavy(page, ".motion[data-src]", () => import("./motion_mount.js"));
  void mountHeavy(page, ".quiz[data-index]", () => import("./quiz_mount.js"));
}

/** The theme lets wide tables of a coach's own page scroll; a keyboard must reach them. @param {Document} page */
function reachTables(page) {
  for (const frame of page.querySelectorAll(".md-typeset__scrollwrap")) frame.setAttribute("tabindex", "0");
}

/**
 * @param {Document} page
 * @param {string} selector
 * @param {() => Promise<{mount: (place: HTMLElement) => unknown}>} load
 */
async function mountHeavy(page, selector, load) {
  const places = /** @type {HTMLElement[]} */ ([...page.querySelectorAll(selector)]);
  if (!places.length) return;
  const { mount } = await load();
  for (const place of places) mount(place);
}

followHashLink();
window.addEventListener("hashchange", followHashLink);
mountFind();
mountFolds();
const changes = /** @type {any} */ (window).document$; // emits the page now and after each instant navigation
if (changes) changes.subscribe(mountPage);
else void mountPage(document);
