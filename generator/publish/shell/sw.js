// @ts-check
/// <reference lib="webworker" />
/**
 * The service worker: answers every request of the site from sealed blobs, or shows the locked page.
 * Nothing lives only in memory: browsers end workers at any moment. (Except a session that the browser refuses to keep.)
 */
import { NotOpened, openManifest, openResult, sealResult, toBase64 } from "./core.js";
import { openStore } from "./store.js";
import { openCabinet } from "./cabinet.js";
import { fetched, isMissing } from "./fetching.js";
import { openOutbox } from "./outbox.js";
import { openPlainFiles } from "./plain.js";
import { openSaving } from "./saving.js";
import { atAnyDepth, json, rebased, refused, respond } from "./reply.js";
import { find, judged, openWithCode, resolved, shelvesOf, Shut } from "./book.js";

/** @typedef {import("./book.js").Session} Session */
/** @typedef {import("./book.js").Shelf} Shelf */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const SHELL_VERSION = "%SHELL_VERSION%";
const BASE = new URL("./", worker.location.href).pathname;
const CHECK_EVERY = 30000; // ms between looks at the boot file
const CHECK_PATIENCE = 1500; // ms a page waits for that look
const SETTLING = 400; // ms until the page that asked is in place: an earlier word would send its tab elsewhere

const store = openStore(BASE);
const cabinet = openCabinet(BASE);
const outbox = openOutbox(store);
const plain = openPlainFiles(BASE, SHELL_VERSION);
const saving = openSaving(cabinet, { seated: () => session, current, onShelf, manifestBefore, tell });
/** @type {Session | null | undefined} undefined: not looked up yet */
let session;
/** @type {Promise<Shelf[]> | null} */
let shelves = null;
let lastCheck = 0;
/** @type {Promise<string> | null} */
let checking = null;
/** @type {Promise<void> | null} */
let telling = null;
let forgets = false; // the browser keeps no keys: the book stays open only as long as this worker lives

worker.addEventListener("install", (event) => {
  event.waitUntil(plain.keep().then(() => worker.skipWaiting()));
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(plain.dropOlder().then(() => worker.clients.claim()));
});

worker.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (url.origin !== worker.location.origin || !url.pathname.startsWith(BASE)) return;
  const path = inner(url);
  if (path === "sw.js" || path === "robots.txt" || path === "_v/boot.json" || path.startsWith("_v/b/")) return;
  if (path.startsWith("_v/")) event.respondWith(own(path, event.request));
  else event.respondWith(answer(event, path, url));
});

worker.addEventListener("message", (event) => {
  const reply = (/** @type {unknown} */ value) => event.ports[0]?.postMessage(value);
  const failed = (/** @type {unknown} */ problem) => reply({ failed: problem instanceof Shut ? problem.why : "unreachable" });
  event.waitUntil(handled(event.data, event.source).then(reply, failed));
});

/** @param {{do: string, code?: string}} message @param {Client | ServiceWorker | MessagePort | null} from */
async function handled(message, from) {
  const sender = from && "id" in from ? from.id : "";
  if (message.do === "state") return stateNow();
  if (message.do === "code") return openedWith(message.code || "");
  if (message.do === "save") return saving.save();
  if (message.do === "check") return check();
  if (message.do === "seen") return seen();
  if (message.do === "leave") return leave(sender);
  return null;
}

/** @param {URL} url */
function inner(url) {
  try {
    return decodeURIComponent(url.pathname.slice(BASE.length));
  } catch {
    return url.pathname.slice(BASE.length);
  }
}

// ---- answering ----

/** @param {FetchEvent} event @param {string} path @param {URL} url */
async function answer(event, path, url) {
  const page = event.request.mode === "navigate";
  if (!(await current())) return page ? plain.page() : refused(403);
  if (page) await lookAtBoot(event);
  if (!session || session.out) return page ? plain.page() : refused(403);
  try {
    return await served(path, url, event.request);
  } catch {
    return page ? plain.page() : refused(503);
  }
}

/** @param {string} path @param {URL} url @param {Request} request */
async function served(path, url, request) {
  const shelf = await onShelf();
  const meant = resolved(shelf, path);
  if (meant?.redirect) return Response.redirect(BASE + meant.path.split("/").map(encodeURIComponent).join("/") + url.search, 302);
  const before = meant ? null : await findBefore(path);
  const found = meant ? find(shelf, meant.path) : before || find(shelf, "404.html");
  if (!found) return refused(404);
  const content = await cabinet.open(found.keys, found.entry.blob, found.entry.media);
  if (!meant && !before) return respond(atAnyDepth(content, BASE), found.entry.media, 404, null);
  const placed = path === "sitemap.xml" ? rebased(content, worker.location.origin + BASE) : content;
  return respond(placed, found.entry.media, 200, request.headers.get("range"));
}

/** Our own addresses below `_v/`: plain files, and what pages ask about the seat. @param {string} path @param {Request} request */
async function own(path, request) {
  if (plain.has(path)) return plain.file(path);
  if (request.mode === "navigate") return refused(404); // a form of another site must not speak in the reader's name
  if (path === "_v/sent" && request.method === "POST") return json({ lines: await outbox.sent(await request.text()) });
  if (path === "_v/unsent") return json({ lines: await outbox.lines() });
  const now = await current();
  if (!now || now.out) return refused(403);
  const { who, positions, staff, resultId, n, fresh } = now;
  if (path === "_v/me") return json({ who, positions, staff, resultId, version: n });
  if (path === "_v/fresh") return json({ pages: fresh });
  if (path === "_v/result" && request.method === "POST" && now.resultKey) {
    const line = await sealResult(resultId, now.resultKey, new Uint8Array(await request.arrayBuffer()));
    await outbox.add(line);
    return json({ line });
  }
  if (path === "_v/open-result" && request.method === "POST" && staff) return openedResult(await request.text());
  return refused(404);
}

/** For staff: whose result a line is, and what it says. @param {string} line */
async function openedResult(line) {
  try {
    const found = find(await onShelf(), "_people.json");
    if (!found) return refused(404);
    const { people } = JSON.parse(new TextDecoder().decode(await cabinet.open(found.keys, found.entry.blob, found.entry.media)));
    const { who, old, content } = await openResult(line, people);
    return json({ who, old, content: toBase64(content) });
  } catch {
    return refused(422);
  }
}

// ---- the session ----

/** @returns {Promise<Session | null>} */
async function current() {
  if (session !== undefined) return session;
  const kept = await store.get("session");
  if (session === undefined) session = kept || null; // else somebody changed it meanwhile: what was kept is older
  return session;
}

/** @param {Session} next */
async function keep(next) {
  session = next;
  shelves = null;
  forgets = !(await store.set("session", next));
}

/** @param {string} code */
async function openedWith(code) {
  const next = await openWithCode(code, await bootText(), cabinet.fetchBlob);
  await cabinet.empty();
  await keep(next); // from one seat to the next without a moment in between in which open pages find the book shut
  cabinet.clearHand();
  lastCheck = Date.now();
  return stateNow();
}

async function stateNow() {
  const now = await current();
  const state = !now ? "shut" : now.out ? "out" : "open";
  const ready = state === "open" && (await onShelf().then(() => true, () => false));
  return { state, ready, full: cabinet.isFull(), forgets, version: SHELL_VERSION, kept: await saving.progress() };
}

function onShelf() {
  if (!session) throw new NotOpened("shut");
  shelves ??= shelvesOf(session, cabinet.fetchBlob);
  shelves.catch(() => (shelves = null));
  return shelves;
}

/** @param {Shelf} shelf @returns {Promise<import("./core.js").Manifest | null>} the manifest of the visit before, as far as it is still there */
async function manifestBefore(shelf) {
  const { before, beforeKey, keys } = shelf.audience;
  if (before) shelf.before ??= await cabinet.fetchBlob(before).then((data) => openManifest(keys[beforeKey], before, data)).catch(() => null);
  return shelf.before;
}

/** Open pages may still ask for files of the manifest before. @param {string} path */
async function findBefore(path) {
  for (const shelf of await onShelf()) {
    const entry = (await manifestBefore(shelf))?.files.get(path);
    if (entry && !path.endsWith(".html")) return { keys: shelf.audience.keys[entry.key], entry };
  }
  return null;
}

async function seen() {
  const now = await current();
  if (now) await keep({ ...now, fresh: [] });
  return null;
}

/** Signing out: keys and pages go; results not yet sent stay, locked. @param {string} sender */
async function leave(sender) {
  await forget();
  await tell({ said: "shut" }, sender);
  return null;
}

async function forget() {
  session = null;
  shelves = null;
  await store.remove("session");
  await cabinet.empty();
}

// ---- newer versions ----

/** @param {FetchEvent} event */
async function lookAtBoot(event) {
  if (Math.abs(Date.now() - lastCheck) < CHECK_EVERY) return; // either way: clocks are set back too
  const look = check();
  event.waitUntil(look.then(() => telling));
  await Promise.race([look, pause(CHECK_PATIENCE)]);
}

/** @returns {Promise<string>} what the host's boot file means for us now */
function check() {
  checking ??= looked().finally(() => (checking = null));
  return checking;
}

async function looked() {
  const now = await current();
  if (!now) return "shut";
  lastCheck = Date.now(); // a host that does not answer is not waited for at every page
  let text;
  try {
    text = await bootText();
  } catch {
    return "unreachable";
  }
  const verdict = await judged(now, text, cabinet.fetchBlob);
  if (session !== now) return "later";
  if (verdict.what === "newer") {
    await keep(verdict.session);
    await tell({ said: now.out ? "open" : "newer", pages: verdict.session.fresh.length });
  }
  if (verdict.what === "out" && !now.out) {
    await keep(verdict.session);
    cabinet.clearHand();
    telling = pause(SETTLING).then(() => tell({ said: "shut" }));
  }
  return verdict.what;
}

async function bootText() {
  try {
    return new TextDecoder().decode(await fetched(`${BASE}_v/boot.json?${Date.now()}`, { cache: "no-store" }));
  } catch (problem) {
    throw new Shut(isMissing(problem) ? "none" : "unreachable");
  }
}

/** @param {object} message @param {string} [except] */
async function tell(message, except) {
  for (const client of await worker.clients.matchAll({ includeUncontrolled: true })) {
    if (client.id !== except && new URL(client.url).pathname.startsWith(BASE)) client.postMessage(message);
  }
}

/** @param {number} ms */
function pause(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
