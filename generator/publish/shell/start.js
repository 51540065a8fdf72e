// @ts-check
/** The locked page: asks for the code, hands it to the service worker, and goes where the reader wanted to go. */
import { HEADINGS, SENTENCES } from "./sentences.js";
import { readOnce, spelt } from "./lite.js";

/** @typedef {keyof typeof SENTENCES} Sentence */
/** @typedef {{state: "shut" | "out" | "open", ready: boolean, full: boolean, forgets: boolean, failed?: Sentence}} State */

const BASE = new URL("../", import.meta.url).pathname;
const ROUNDS = "secondside:rounds:" + BASE;
const handed = /** @type {any} */ (window).secondside || { code: "" };

main();

async function main() {
  document.documentElement.dataset.state = "";
  link("manifest", BASE + "_v/app.webmanifest");
  link("apple-touch-icon", BASE + "_v/icon-180.png");
  if (!window.isSecureContext || !window.crypto?.subtle) return say("insecure");
  if (typeof DecompressionStream === "undefined") return say("old");
  const worker = await registered();
  if (!worker) return askForReading();
  const now = /** @type {State} */ (await ask(worker, { do: "state" }));
  if (now.state === "open" && !handed.code) return reopen(worker, now);
  if (now.state === "out" && !handed.code) return shutOut(worker);
  askForCode(worker);
}

/** @param {string} rel @param {string} href */
function link(rel, href) {
  const tag = document.createElement("link");
  tag.rel = rel;
  tag.href = href;
  document.head.append(tag);
}

/** The inner page asked for: below the base, behind `#/`, or where it was read once. */
function wantedPath() {
  const behind = /^#(?:at)?\/(.*)$/.exec(location.hash);
  if (behind) return behind[1];
  const below = location.pathname.startsWith(BASE) ? location.pathname.slice(BASE.length) : "";
  return (below === "index.html" || below === "404.html" ? "" : below) + location.search + location.hash;
}

/** @returns {Promise<ServiceWorker | null>} */
async function registered() {
  if (!navigator.serviceWorker) return null;
  try {
    const registration = await navigator.serviceWorker.register(BASE + "sw.js", { scope: BASE, updateViaCache: "none" });
    const late = new Promise((resolve) => setTimeout(resolve, 10000, null));
    const ready = await Promise.race([navigator.serviceWorker.ready, late]);
    return ready ? ready.active : registration.active;
  } catch {
    const kept = await navigator.serviceWorker.getRegistration(BASE).catch(() => undefined);
    return kept?.active || null;
  }
}

/** @param {ServiceWorker} worker @param {object} message @returns {Promise<any>} */
function ask(worker, message) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event) => resolve(event.data);
    worker.postMessage(message, [port2]);
  });
}

/** The keys are here, yet this page was shown: a hard reload, or nothing kept and no signal. @param {ServiceWorker} worker @param {State} now */
async function reopen(worker, now) {
  const rounds = Number(sessionStorage.getItem(ROUNDS) || 0);
  if (now.ready && rounds < 2) {
    sessionStorage.setItem(ROUNDS, String(rounds + 1));
    return go();
  }
  sessionStorage.removeItem(ROUNDS);
  say("notKept");
  button("Try again", () => location.reload());
  button("Go to the first page", () => location.replace(BASE), true);
  button("Sign out", async () => (await ask(worker, { do: "leave" }), location.replace(BASE)), true);
}

/** A signed boot file no longer has this seat. Perhaps it has again: that opens by itself. @param {ServiceWorker} worker */
async function shutOut(worker) {
  if ((await ask(worker, { do: "check" })) === "newer") return go();
  say("out");
  await showUnsent();
  button("Enter a code", () => askForCode(worker), true);
}

async function showUnsent() {
  const kept = await fetch(BASE + "_v/unsent").then((r) => r.json()).catch(() => ({ lines: [] }));
  byId("unsent").hidden = kept.lines.length === 0;
  byId("lines").replaceChildren(...kept.lines.map(unsentLine));
}

/** @param {string} line */
function unsentLine(line) {
  const item = document.createElement("li");
  const text = document.createElement("code");
  text.textContent = line;
  const send = document.createElement("button");
  send.textContent = typeof navigator.share === "function" ? "Send" : "Copy";
  send.addEventListener("click", async () => {
    if (typeof navigator.share === "function") await navigator.share({ text: line }).catch(() => null);
    else await navigator.clipboard.writeText(line).then(() => (send.textContent = "Copied"));
  });
  item.append(text, send);
  return item;
}

/** @param {ServiceWorker} worker */
async function askForCode(worker) {
  say("ask");
  byId("actions").hidden = true;
  await showUnsent();
  form(async (code) => {
    const now = /** @type {State} */ (await ask(worker, { do: "code", code }));
    if (now.failed) return now.failed;
    if (navigator.storage?.persist) navigator.storage.persist().catch(() => false);
    worker.postMessage({ do: "save" });
    if (!now.forgets) return go();
    say("forgets");
    byId("form").hidden = true;
    button("Go on", go);
    return null;
  });
}

function askForReading() {
  say("ask");
  note("readOnce");
  if (typeof navigator.clipboard !== "undefined") button("Copy the address", copyAddress, true);
  form(async (code) => readOnce(BASE, code, wantedPath()));
}

/** @param {Event} event of the button, which says that it is done */
async function copyAddress(event) {
  await navigator.clipboard.writeText(location.origin + BASE);
  /** @type {HTMLElement} */ (event.target).textContent = "Copied";
}

/** @param {(code: string) => Promise<string | null | void>} submit gives why it stayed shut, if it did */
function form(submit) {
  const input = /** @type {HTMLInputElement} */ (byId("code"));
  const send = /** @type {HTMLButtonElement} */ (byId("open"));
  const element = /** @type {HTMLFormElement} */ (byId("form"));
  element.hidden = false;
  element.onsubmit = async (event) => {
    event.preventDefault();
    byId("wrong").textContent = "";
    send.disabled = true;
    send.textContent = SENTENCES.opening;
    const why = await submit(input.value);
    send.disabled = false;
    send.textContent = "Open";
    input.setAttribute("aria-invalid", String(Boolean(why)));
    if (why) byId("wrong").textContent = SENTENCES[/** @type {Sentence} */ (why)] || SENTENCES.unreachable;
    if (why) input.focus();
  };
  const scanned = () => {
    input.value = handed.code;
    handed.code = "";
    element.requestSubmit();
  };
  addEventListener("hashchange", () => takeCard() && scanned());
  if (handed.code) scanned();
  else input.focus();
}

/** A card scanned into this very tab changes only what is behind the sharp sign: no new page, so the code is taken out here. */
function takeCard() {
  const card = /^#c=([^&]*)/.exec(location.hash);
  if (!card) return false;
  history.replaceState(null, "", location.pathname + location.search);
  handed.code = spelt(card[1]);
  return true;
}

function go() {
  sessionStorage.setItem(ROUNDS, String(Number(sessionStorage.getItem(ROUNDS) || 0)));
  const target = place(wantedPath());
  if (target.href.split("#")[0] !== location.href.split("#")[0]) return location.replace(target.href);
  history.replaceState(null, "", target.href);
  location.reload();
}

/** Never outside the book: behind `#//` or below `//` another host may stand. @param {string} path */
function place(path) {
  const root = location.origin + BASE;
  const target = new URL(root + path);
  return target.href.startsWith(root) ? target : new URL(root);
}

/** @param {Sentence} which */
function say(which) {
  byId("lead").textContent = SENTENCES[which];
  byId("title").textContent = HEADINGS[which] || "Locked";
}

/** @param {Sentence} which */
function note(which) {
  byId("note").textContent = SENTENCES[which];
  byId("note").hidden = false;
}

/** @param {string} words @param {(event: Event) => unknown} act @param {boolean} [plain] */
function button(words, act, plain = false) {
  const element = document.createElement("button");
  element.textContent = words;
  element.type = "button";
  if (plain) element.className = "plain";
  element.addEventListener("click", act);
  byId("actions").append(element);
  byId("actions").hidden = false;
}

/** @param {string} id @returns {HTMLElement} */
function byId(id) {
  return /** @type {HTMLElement} */ (document.getElementById(id));
}
