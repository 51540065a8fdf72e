// @ts-check
/**
 * Runs in every opened page, first in its head: removes a code from the address, goes to `#/` links, and shows one line at the
 * foot of the page: what is new, what is kept, sign out. Classic script: it must run before anything else does.
 */
const BASE = new URL("../", /** @type {HTMLScriptElement} */ (document.currentScript).src).pathname;
let scanned = takeCard();
let newer = false;
if (!scanned) follow();

addEventListener("hashchange", () => {
  scanned = takeCard();
  if (scanned) offer(scanned);
  else follow();
});
if (navigator.serviceWorker) {
  navigator.serviceWorker.addEventListener("message", (event) => heard(event.data));
  navigator.serviceWorker.startMessages();
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", ready);
  else ready();
}

addEventListener("pageshow", async (event) => {
  if (!event.persisted) return; // a page that the browser had put aside: nobody has told it that the book was shut meanwhile
  const now = await send({ do: "state" });
  if (now && now.state !== "open") location.replace(BASE);
});

let looked = Date.now();
addEventListener("visibilitychange", lookAgain);
addEventListener("online", lookAgain);

/** A page that stayed open asks for news when it is looked at again. */
function lookAgain() {
  if (document.visibilityState !== "visible" || Math.abs(Date.now() - looked) < 30000) return;
  looked = Date.now();
  send({ do: "check" });
}

/** @returns {string} the code that stood in the address, which no longer has it */
function takeCard() {
  const card = /^#c=([^&]*)/.exec(location.hash);
  if (card) history.replaceState(history.state, "", location.pathname + location.search);
  return card ? spelt(card[1]) : "";
}

/** @param {string} part of an address, perhaps broken on its way */
function spelt(part) {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** Goes where a `#/` link points, but never out of the book: behind `#//` another host may stand. */
function follow() {
  if (!location.hash.startsWith("#/")) return;
  const root = location.origin + BASE;
  const target = new URL(root + location.hash.slice(2)).href;
  location.replace(target.startsWith(root) ? target : root);
}

async function ready() {
  try {
    sessionStorage.removeItem("secondside:rounds:" + BASE);
  } catch {
    // a browser without storage has nothing to remove
  }
  const foot = bar();
  foot.append(item("button", "Sign out", () => leave()));
  if (scanned) offer(scanned);
  if (newer) offerNewer();
  const kept = await send({ do: "save" });
  if (kept && kept.of) saved(kept.done, kept.of);
  const state = await send({ do: "state" });
  if (state?.full) notice("full", "This phone is nearly full: not every page is kept for later.");
  if (state?.forgets) notice("forgets", "This window keeps nothing: the code is asked again when it is closed.");
  await news();
}

async function news() {
  const fresh = await fetch(BASE + "_v/fresh").then((r) => r.json()).catch(() => ({ pages: [] }));
  if (!fresh.pages.length || newer) return;
  notice("news", "The book has changed since your last visit.", "Seen", () => send({ do: "seen" }).then(() => notice("news", "")));
  const line = document.querySelector('.vault-bar [data-vault="news"]');
  if (location.pathname !== BASE) line?.append(" ", item("button", "What changed for you", () => location.assign(BASE)));
}

/** @param {{said: string, done?: number, of?: number}} message */
function heard(message) {
  if (message.said === "shut") location.replace(BASE);
  if (message.said === "newer") offerNewer();
  if (message.said === "saving" || message.said === "saved") saved(message.done || 0, message.of || 0);
  if (message.said === "full") notice("full", "This phone is nearly full: not every page is kept for later.");
}

/** Also when the word comes before the page is there to show it. */
function offerNewer() {
  newer = true;
  notice("news", "There is a newer version.", "Show it", () => location.reload());
}

/** @param {number} done @param {number} of */
function saved(done, of) {
  notice("kept", done >= of ? "Everything is on this phone and opens without a signal." : `Keeping pages for later: ${done} of ${of}.`);
}

/** A card was scanned although the book is open. @param {string} code */
function offer(code) {
  notice("card", "You scanned a card, but the book is already open here.", "Use the card", async () => {
    const now = await send({ do: "code", code });
    if (now?.failed) notice("card", "The card's code does not open this book.");
    else location.replace(BASE);
  });
}

async function leave() {
  const unsent = await fetch(BASE + "_v/unsent").then((r) => r.json()).catch(() => ({ lines: [] }));
  const warning = unsent.lines.length ? "Quiz results that are not sent yet stay on this phone, locked. " : "";
  if (!confirm(warning + "Sign out? The code will be needed to come back.")) return;
  await send({ do: "leave" });
  location.replace(BASE);
}

/** @param {object} message @returns {Promise<any>} */
function send(message) {
  return new Promise((resolve) => {
    const worker = navigator.serviceWorker.controller;
    if (!worker) return resolve(null);
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event) => resolve(event.data);
    worker.postMessage(message, [port2]);
  });
}

/** The line at the foot; a page that wants it elsewhere has an element `data-vault-bar`. @returns {HTMLElement} */
function bar() {
  const there = /** @type {HTMLElement | null} */ (document.querySelector("[data-vault-bar]"));
  const foot = there || document.body.appendChild(document.createElement("footer"));
  foot.classList.add("vault-bar");
  foot.setAttribute("aria-label", "This copy of the book");
  if (there) return foot;
  foot.style.cssText = "display:flex;flex-wrap:wrap;gap:0.5rem 1rem;align-items:center;justify-content:center;padding:1rem;font-size:0.875rem";
  return foot;
}

/** @param {string} kind @param {string} words empty takes the line away @param {string} [deed] @param {() => void} [act] */
function notice(kind, words, deed, act) {
  const foot = document.querySelector(".vault-bar");
  if (!foot) return;
  foot.querySelector(`[data-vault="${kind}"]`)?.remove();
  if (!words) return;
  const line = item("p", words);
  line.dataset.vault = kind;
  line.setAttribute("role", "status");
  line.style.margin = "0";
  if (deed && act) line.append(" ", item("button", deed, act));
  foot.prepend(line);
}

/** @param {string} tag @param {string} words @param {() => void} [act] */
function item(tag, words, act) {
  const element = document.createElement(tag);
  element.textContent = words;
  if (!act) return element;
  element.addEventListener("click", act);
  element.setAttribute("type", "button");
  element.style.cssText = "min-height:44px;padding:0 1rem;font:inherit;color:inherit;background:none;border:1.5px solid currentColor;border-radius:0.5rem;cursor:pointer";
  return element;
}
