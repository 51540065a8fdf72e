// @ts-check
/** The tools under a play: own list, a link that works through the lock, paper. */
import { ownList, ROOT, toggleOnList } from "./phone.js";

const ADDRESS = /^[a-z2-7]{10}\/(?:#[\w-]+)?$/;

/** A `#/` link names the page behind the hash, so its address is never sent to the host. */
export function followHashLink() {
  if (!location.hash.startsWith("#/")) return;
  const inner = location.hash.slice(2);
  if (ADDRESS.test(inner)) location.replace(new URL(inner, ROOT));
}

/** @param {Document} page */
export function mountPlayTools(page) {
  const tools = /** @type {HTMLElement | null} */ (page.querySelector("[data-tools]"));
  if (!tools) return;
  tools.hidden = false;
  const keeper = /** @type {HTMLButtonElement | null} */ (tools.querySelector("[data-keep]"));
  const id = keeper?.dataset.keep ?? "";
  if (keeper) {
    say(keeper, ownList().includes(id));
    keeper.addEventListener("click", () => say(keeper, toggleOnList(id)));
  }
  const share = /** @type {HTMLButtonElement | null} */ (tools.querySelector("[data-share]"));
  share?.addEventListener("click", () => shareLink(share));
  tools.querySelector("[data-print]")?.addEventListener("click", () => window.print());
}

/**
 * @param {HTMLButtonElement} button
 * @param {boolean} on
 */
function say(button, on) {
  button.setAttribute("aria-pressed", String(on));
  button.textContent = on ? "On my list" : "Keep on my list";
}

/** @param {HTMLButtonElement} button */
async function shareLink(button) {
  const inner = location.pathname.slice(ROOT.pathname.length);
  const link = `${ROOT.origin}${ROOT.pathname}#/${inner}`;
  try {
    await navigator.clipboard.writeText(link);
    button.textContent = "Link copied";
  } catch {
    window.prompt("Copy this link", link);
  }
}
