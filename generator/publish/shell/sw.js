// @ts-check
/// <reference lib="webworker" />
/**
 * The service worker: answers every request of the site from sealed blobs, or shows the locked page.
 * Nothing lives only in memory: browsers end workers at any moment. (Except a session that the browser refuses to keep.)
 */
import { NotOpened, openBlob, openManifest, openResult, sealResult, toBase64 } from "./core.js";
import { openStore } from "./store.js";
import { allBlobs, find, judged, openWithCode, resolved, shelvesOf, Shut } from "./book.js";

/** @typedef {import("./core.js").BlobKeys} BlobKeys */
/** @typedef {import("./book.js").Session} Session */
/** @typedef {import("./book.js").Shelf} Shelf */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const SHELL_VERSION = "%SHELL_VERSION%";
const BASE = new URL("./", worker.location.href).pathname;
const BLOBS = "secondside:" + BASE + ":blobs";
const SHELL = "secondside:" + BASE + ":shell:";
const NEEDED = ["", "_v/start.js", "_v/client.js"];
const SHELL_FILES = [...NEEDED, "_v/app.webmanifest", "_v/icon.svg", "_v/icon-180.png", "_v/icon-512.png"];
const CHECK_EVERY = 30000; // ms between looks at the boot file
const CHECK_PATIENCE = 1500; // ms a page waits for that look
const SETTLING = 400; // ms until the page that asked is in place: an earlier word would send its tab elsewhere
const FETCH_PATIENCE = 20000; // ms: some browsers end a worker that waits much longer
const MEMORY = 4 * 1024 * 1024; // bytes of opened scripts, looks and pictures kept at hand
const PARALLEL = 6;
const CSP =
  "default-src 'self' data: blob:; script-src 'self' 'unsafe-inline' blob:; style-src 'self' 'unsafe-inline'; connect-src 'self'; " +
  "object-src 'none'; base-uri 'self'; form-action 'none'; frame-ancestors 'self'";

const store = openStore(BASE);
/** @type {Session | null | undefined} undefined: not looked up yet */
let session;
/** @type {Promise<Shelf[]> | null} */
let shelves = null;
/** @type {Map<string, Uint8Array>} */
const atHand = new Map();
let atHandSize = 0;
let lastCheck = 0;
/** @type {Promise<string> | null} */
let checking = null;
/** @type {Promise<void> | null} */
let saving = null;
/** @type {Promise<void> | null} */
let telling = null;
let full = false;
let forgets = false; // the browser keeps no keys: the book stays open only as long as this worker lives

worker.addEventListener("install", (event) => {
  event.waitUntil(keepShell().then(() => worker.skipWaiting()));
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(dropOldShells().then(() => worker.clients.claim()));
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
  if (message.do === "save") return save();
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
  if (!(await current())) return page ? shellPage() : refused(403);
  if (page) await lookAtBoot(event);
  if (!session || session.out) return page ? shellPage() : refused(403);
  try {
    return await served(path, url, event.request);
  } catch {
    return page ? shellPage() : refused(503);
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
  const content = await opened(found.entry.blob, found.keys, found.entry.media);
  return respond(path === "sitemap.xml" ? rebased(content) : content, found.entry.media, meant || before ? 200 : 404, request);
}

/** @param {Uint8Array} content @param {string} media @param {number} status @param {Request} request */
function respond(content, media, status, request) {
  const range = /^bytes=(\d+)-(\d*)$/.exec(request.headers.get("range") || "");
  if (!range) return new Response(content, { status, headers: headers(media) });
  const from = Number(range[1]);
  const to = range[2] ? Math.min(Number(range[2]), content.length - 1) : content.length - 1;
  if (from > to) return new Response("", { status: 416, headers: { "Content-Range": `bytes */${content.length}` } });
  const part = { ...headers(media), "Content-Range": `bytes ${from}-${to}/${content.length}`, "Accept-Ranges": "bytes" };
  return new Response(content.slice(from, to + 1), { status: 206, headers: part });
}

/** @param {number} status never kept by a browser: the next try may be answered */
function refused(status) {
  return new Response("", { status, headers: headers("text/plain") });
}

/** Scripts and looks, which are the same for every book of a version, may stay in a tab's memory between two pages: half the time of
 *  a page load. Everything else is asked for each time. @param {string} media @returns {Record<string, string>} */
function headers(media) {
  const all = { "Content-Type": media, "Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin" };
  if (/^text\/css|javascript|^font/.test(media)) return { ...all, "Cache-Control": "max-age=30" };
  return media.startsWith("text/html") ? { ...all, "Content-Security-Policy": CSP } : all;
}

/** The site map is written for the address given at build time; pages compare it with where they really lie. @param {Uint8Array} content */
function rebased(content) {
  const text = new TextDecoder().decode(content);
  const first = /<loc>\s*(https?:\/\/[^<\s]*)/.exec(text);
  if (!first) return content;
  const addresses = [...text.matchAll(/<loc>\s*([^<\s]*)/g)].map((m) => m[1]);
  const root = addresses.reduce((short, a) => (a.length < short.length ? a : short));
  return new TextEncoder().encode(text.replaceAll("<loc>" + root, "<loc>" + worker.location.origin + BASE));
}

// ---- our own addresses ----

/** @param {string} path @param {Request} request */
async function own(path, request) {
  if (SHELL_FILES.includes(path)) return shellFile(path);
  if (path === "_v/sent" && request.method === "POST") return json(await sent(await request.text()));
  if (path === "_v/unsent") return json({ lines: await outbox() });
  const now = await current();
  if (!now || now.out) return refused(403);
  const { who, positions, staff, resultId, n, fresh } = now;
  if (path === "_v/me") return json({ who, positions, staff, resultId, version: n });
  if (path === "_v/fresh") return json({ pages: fresh });
  if (path === "_v/result" && request.method === "POST" && now.resultKey) {
    const line = await sealResult(resultId, now.resultKey, new Uint8Array(await request.arrayBuffer()));
    await toOutbox(line);
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
    const { people } = JSON.parse(new TextDecoder().decode(await opened(found.entry.blob, found.keys, found.entry.media)));
    const { who, old, content } = await openResult(line, people);
    return json({ who, old, content: toBase64(content) });
  } catch {
    return refused(422);
  }
}

/** @param {unknown} value */
function json(value) {
  return new Response(JSON.stringify(value), { headers: headers("application/json") });
}

/** @returns {Promise<string[]>} sealed results that nobody has said to have sent; they outlive locking and signing out */
async function outbox() {
  return (await store.get("unsent")) || [];
}

/** @param {string} line */
async function toOutbox(line) {
  await store.set("unsent", [...(await outbox()), line]);
}

/** @param {string} line */
async function sent(line) {
  const left = (await outbox()).filter((l) => l !== line);
  await store.set("unsent", left);
  return { lines: left };
}

// ---- shell ----

async function keepShell() {
  const cache = await caches.open(SHELL + SHELL_VERSION);
  const request = (/** @type {string} */ path) => new Request(BASE + path, { cache: "reload" });
  await cache.addAll(NEEDED.map(request));
  await Promise.all(SHELL_FILES.filter((path) => !NEEDED.includes(path)).map((path) => cache.add(request(path)).catch(() => null)));
}

async function dropOldShells() {
  for (const name of await caches.keys()) if (name.startsWith(SHELL) && name !== SHELL + SHELL_VERSION) await caches.delete(name);
}

/** @param {string} path */
async function shellFile(path) {
  const kept = await (await caches.open(SHELL + SHELL_VERSION)).match(BASE + path);
  return kept || fetch(BASE + path);
}

async function shellPage() {
  return shellFile("").catch(() => refused(503));
}

// ---- the session ----

/** @returns {Promise<Session | null>} */
async function current() {
  if (session === undefined) session = (await store.get("session")) || null;
  return session || null;
}

/** @param {Session} next */
async function keep(next) {
  session = next;
  shelves = null;
  forgets = !(await store.set("session", next));
}

/** @param {string} code */
async function openedWith(code) {
  const next = await openWithCode(code, await bootText(), fetchBlob);
  await forget();
  await keep(next);
  lastCheck = Date.now();
  return stateNow();
}

async function stateNow() {
  const now = await current();
  const state = !now ? "shut" : now.out ? "out" : "open";
  const ready = state === "open" && (await onShelf().then(() => true, () => false));
  return { state, ready, full, forgets, version: SHELL_VERSION, kept: await progress() };
}

function onShelf() {
  if (!session) throw new NotOpened("shut");
  shelves ??= shelvesOf(session, fetchBlob);
  shelves.catch(() => (shelves = null));
  return shelves;
}

/** Open pages may still ask for files of the manifest before. @param {string} path */
async function findBefore(path) {
  for (const shelf of await onShelf()) {
    const { audience } = shelf;
    if (!audience.before) continue;
    const keys = audience.keys[audience.beforeKey];
    shelf.before ??= await fetchBlob(audience.before).then((data) => openManifest(keys, audience.before, data)).catch(() => null);
    const entry = shelf.before?.files.get(path);
    if (entry && !path.endsWith(".html")) return { keys: audience.keys[entry.key], entry };
  }
  return null;
}

async function seen() {
  if (session) await keep({ ...session, fresh: [] });
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
  atHand.clear();
  atHandSize = 0;
  await store.remove("session");
  await caches.delete(BLOBS);
}

// ---- newer versions ----

/** @param {FetchEvent} event */
async function lookAtBoot(event) {
  if (Date.now() - lastCheck < CHECK_EVERY) return;
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
  let text;
  try {
    text = await bootText();
  } catch {
    return "unreachable";
  }
  lastCheck = Date.now();
  const verdict = await judged(now, text, fetchBlob);
  if (session !== now) return "later";
  if (verdict.what === "newer") {
    await keep(verdict.session);
    await tell({ said: now.out ? "open" : "newer", pages: verdict.session.fresh.length });
  }
  if (verdict.what === "out" && !now.out) {
    await keep(verdict.session);
    atHand.clear();
    telling = pause(SETTLING).then(() => tell({ said: "shut" }));
  }
  return verdict.what;
}

async function bootText() {
  try {
    const text = await (await fetched(`${BASE}_v/boot.json?${Date.now()}`, { cache: "no-store" })).text();
    return text;
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

// ---- blobs ----

/** @param {string} name @param {BlobKeys} keys @param {string} media */
async function opened(name, keys, media) {
  const held = atHand.get(name);
  if (held) return held;
  const content = await openKept(keys, name, openBlob);
  if (/css|javascript|svg|font/.test(media)) hold(name, content);
  return content;
}

/**
 * A kept copy that does not open (a damaged disk, a sign-in page of a hotel) is fetched once more, past every cache.
 * @template T @param {BlobKeys} keys @param {string} name @param {(keys: BlobKeys, name: string, data: Uint8Array) => Promise<T>} open
 * @returns {Promise<T>}
 */
async function openKept(keys, name, open) {
  try {
    return await open(keys, name, await fetchBlob(name));
  } catch (problem) {
    if (!(problem instanceof NotOpened)) throw problem;
    await (await caches.open(BLOBS)).delete(address(name)).catch(() => false);
    return open(keys, name, await fetchBlob(name, true));
  }
}

/** @param {string} name @param {Uint8Array} content */
function hold(name, content) {
  atHand.set(name, content);
  atHandSize += content.length;
  for (const [oldest, bytes] of atHand) {
    if (atHandSize <= MEMORY) break;
    atHand.delete(oldest);
    atHandSize -= bytes.length;
  }
}

/** @param {string} name */
function address(name) {
  return `${BASE}_v/b/${name}`;
}

/** The sealed bytes of a blob: from the phone, else from the host. @param {string} name @param {boolean} [afresh] past every cache */
async function fetchBlob(name, afresh = false) {
  const kept = afresh ? undefined : await caches.open(BLOBS).then((cache) => cache.match(address(name))).catch(() => undefined);
  if (kept) return new Uint8Array(await kept.arrayBuffer());
  const past = () => fetched(address(name), { cache: "reload" });
  // hosts let a 404 be kept for minutes; a blob that came after its boot file would stay missing that long
  const response = await (afresh ? past() : fetched(address(name), {}).catch((problem) => (isMissing(problem) ? past() : Promise.reject(problem))));
  const data = new Uint8Array(await response.arrayBuffer());
  await put(name, data);
  return data;
}

/** @param {unknown} problem */
function isMissing(problem) {
  return problem instanceof Error && problem.message === "404";
}

/** @param {string} name @param {Uint8Array} data */
async function put(name, data) {
  try {
    await (await caches.open(BLOBS)).put(address(name), new Response(data));
  } catch {
    full = true;
  }
}

/** @param {string} url @param {RequestInit} options */
async function fetched(url, options) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), FETCH_PATIENCE);
  try {
    const response = await fetch(url, { ...options, signal: stop.signal, credentials: "same-origin" });
    if (!response.ok) throw new Error(String(response.status));
    return new Response(await response.arrayBuffer());
  } finally {
    clearTimeout(timer);
  }
}

/** Fetches what is missing for reading without a signal, then drops what no manifest names any more. */
function save() {
  saving ??= saveAll().finally(() => (saving = null));
  return saving.then(progress);
}

async function saveAll() {
  const wanted = allBlobs(await onShelf());
  const kept = await keptNames();
  const missing = [...wanted].filter(([name]) => !kept.has(name));
  let done = wanted.size - missing.length;
  const next = async () => {
    for (let job = missing.pop(); job && session && !full; job = missing.pop()) {
      const good = await fetchGood(job[0], job[1]);
      if (good) done += 1;
      if (good && done % 10 === 0) await tell({ said: "saving", done, of: wanted.size });
    }
  };
  await Promise.all(Array.from({ length: PARALLEL }, next));
  await tell({ said: done === wanted.size ? "saved" : full ? "full" : "saving", done, of: wanted.size });
  if (done === wanted.size) await dropOthers(wanted);
}

/** @param {string} name @param {BlobKeys} keys */
async function fetchGood(name, keys) {
  const manifest = (await onShelf()).some(({ audience }) => audience.head === name);
  try {
    await openKept(keys, name, (k, n, data) => openBlob(k, n, data, manifest));
    return true;
  } catch (problem) {
    if (problem instanceof NotOpened) await (await caches.open(BLOBS)).delete(address(name));
    return false;
  }
}

async function keptNames() {
  const keys = await caches.open(BLOBS).then((cache) => cache.keys()).catch(() => []);
  return new Set(keys.map((request) => request.url.slice(-32)));
}

/** @param {Map<string, unknown>} wanted */
async function dropOthers(wanted) {
  const stays = new Set(wanted.keys());
  for (const { audience } of await onShelf()) {
    if (!audience.before) continue;
    stays.add(audience.before);
    const manifest = await openManifest(audience.keys[audience.beforeKey], audience.before, await fetchBlob(audience.before)).catch(() => null);
    manifest?.files.forEach((entry) => stays.add(entry.blob));
  }
  const cache = await caches.open(BLOBS);
  for (const name of await keptNames()) if (!stays.has(name)) await cache.delete(address(name));
}

async function progress() {
  if (!session || session.out) return { done: 0, of: 0 };
  try {
    const wanted = allBlobs(await onShelf());
    const kept = await keptNames();
    return { done: [...wanted.keys()].filter((name) => kept.has(name)).length, of: wanted.size };
  } catch {
    return { done: 0, of: 0 };
  }
}

/** @param {number} ms */
function pause(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
