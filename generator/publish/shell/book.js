// @ts-check
/**
 * An opened book: who sits here, which manifests he reads, and how a newer boot file changes that.
 * Used by the service worker and by the read-once page; storage and network come in as functions.
 */
import { audienceKey, gcmKey, isSigned, looksLikeCode, NotOpened, openBlob, openManifest, openSeat, readBoot, seatKey } from "./core.js";

/** @typedef {import("./core.js").BlobKeys} BlobKeys */
/** @typedef {import("./core.js").Boot} Boot */
/** @typedef {import("./core.js").Entry} Entry */
/** @typedef {import("./core.js").Manifest} Manifest */
/** @typedef {{id: string, keys: Record<string, BlobKeys>, kid: string, head: string, headKey: string, before: string, beforeKey: string, g: number}} Audience
 *   `head` the manifest read now, `before` the one of the last visit (open pages may still ask for its files) */
/** @typedef {{seat: string, key: CryptoKey, pub: Uint8Array, n: number, staff: boolean, who: string, positions: number[],
 *   resultId: string, resultKey: CryptoKey | null, audiences: Audience[], out: boolean, fresh: string[]}} Session
 *   `out`: a signed boot file no longer has this seat; `fresh`: pages that are new since the reader last said "seen" */
/** @typedef {(name: string, afresh?: boolean) => Promise<Uint8Array>} FetchBlob `afresh`: past every cache */
/** @typedef {{audience: Audience, now: Manifest, before: Manifest | null}} Shelf */

/** Why a book stays shut; the page turns each into a sentence. */
export class Shut extends Error {
  /** @param {"letters" | "code" | "forged" | "unreachable" | "none"} why */
  constructor(why) {
    super(why);
    this.why = why;
  }
}

/**
 * Opens the book with a code.
 * @param {string} code @param {string} bootText @param {FetchBlob} fetchBlob
 * @returns {Promise<Session>}
 */
export async function openWithCode(code, bootText, fetchBlob) {
  if (!looksLikeCode(code)) throw new Shut("letters");
  const boot = bootOrShut(bootText);
  const { seat, key } = await seatKey(code, boot.salt, boot.rounds);
  if (!(seat in boot.seats)) throw new Shut("code");
  const payload = await openSeat(key, seat, boot.seats[seat]).catch(() => null);
  if (!payload) throw new Shut("code");
  if (!(await isSigned(boot, payload.pub))) throw new Shut("forged");
  const empty = { seat, key, pub: payload.pub, n: 0, staff: false, who: "", positions: [], resultId: "", resultKey: null, audiences: [], out: false, fresh: [] };
  const session = await seated(empty, boot, fetchBlob);
  return { ...session, fresh: [] };
}

/** @param {string} text */
function bootOrShut(text) {
  try {
    return readBoot(text);
  } catch {
    throw new Shut("none");
  }
}

/** @typedef {{what: "same" | "ignored" | "out" | "newer" | "later", session: Session}} Verdict */

/**
 * What a boot file that was just fetched means for the reader. Only one signed by the book's own key, and not older than the
 * one known, may change anything; a missing seat shuts the book but leaves everything where it is.
 * @param {Session} session @param {string} bootText @param {FetchBlob} fetchBlob
 * @returns {Promise<Verdict>}
 */
export async function judged(session, bootText, fetchBlob) {
  /** @type {Boot} */
  let boot;
  try {
    boot = readBoot(bootText);
  } catch {
    return { what: "ignored", session };
  }
  if (boot.n < session.n || !(await isSigned(boot, session.pub))) return { what: "ignored", session };
  if (!(session.seat in boot.seats)) return { what: "out", session: { ...session, n: boot.n, out: true, audiences: [], resultKey: null } };
  if (boot.n === session.n && !session.out && isRead(session, boot)) return { what: "same", session };
  try {
    return { what: "newer", session: await seated(session, boot, fetchBlob) };
  } catch {
    return { what: "later", session };
  }
}

/** Two laptops with the same keys can both have published under one number. @param {Session} session @param {Boot} boot */
function isRead(session, boot) {
  return session.audiences.every((audience) => boot.heads[audience.id] === audience.head);
}

/**
 * The session under this boot file: keys unwrapped again, manifests fetched, what is new noted.
 * @param {Session} session @param {Boot} boot @param {FetchBlob} fetchBlob @returns {Promise<Session>}
 */
async function seated(session, boot, fetchBlob) {
  const payload = await openSeat(session.key, session.seat, boot.seats[session.seat]);
  const audiences = [];
  const fresh = new Set(session.fresh);
  for (const [id, contentKey] of payload.keys) {
    const known = session.audiences.find((a) => a.id === id);
    const { audience, changed } = await turned(id, contentKey, boot.heads[id], known, fetchBlob);
    audiences.push(audience);
    changed.forEach((path) => fresh.add(path));
  }
  return {
    ...session, n: boot.n, staff: payload.staff, who: payload.who, positions: payload.positions, resultId: payload.resultId,
    resultKey: await gcmKey(payload.resultKey, ["encrypt"]), audiences, out: false, fresh: [...fresh].sort(),
  };
}

/**
 * @param {string} id @param {Uint8Array} contentKey @param {string | undefined} head @param {Audience | undefined} known
 * @param {FetchBlob} fetchBlob @returns {Promise<{audience: Audience, changed: string[]}>}
 */
async function turned(id, contentKey, head, known, fetchBlob) {
  if (!head) throw new NotOpened("no such audience");
  const current = await audienceKey(contentKey);
  if (known && known.head === head && known.kid === current.id) return { audience: known, changed: [] };
  const keys = { ...(known ? known.keys : {}), [current.id]: current.keys };
  const manifest = await fetchManifest(current.keys, head, fetchBlob);
  if (known && manifest.g < known.g) throw new NotOpened("older manifest");
  for (const old of Object.values(manifest.oldKeys)) {
    const { id: kid, keys: opened } = await audienceKey(old);
    keys[kid] = opened;
  }
  const before = known ? { before: known.head, beforeKey: known.headKey } : { before: "", beforeKey: "" };
  const audience = { id, keys, kid: current.id, head, headKey: current.id, ...before, g: manifest.g };
  return { audience, changed: known ? await changedPages(known, manifest, fetchBlob) : [] };
}

/** @param {BlobKeys} keys @param {string} head @param {FetchBlob} fetchBlob a kept copy may be damaged @returns {Promise<Manifest>} */
async function fetchManifest(keys, head, fetchBlob) {
  const kept = await fetchBlob(head);
  return openManifest(keys, head, kept).catch(async () => openManifest(keys, head, await fetchBlob(head, true)));
}

/** @param {Audience} known @param {Manifest} manifest @param {FetchBlob} fetchBlob */
async function changedPages(known, manifest, fetchBlob) {
  try {
    const old = await openManifest(known.keys[known.headKey], known.head, await fetchBlob(known.head));
    const isNew = (/** @type {[string, Entry]} */ [path, entry]) => path.endsWith(".html") && old.files.get(path)?.blob !== entry.blob;
    return [...manifest.files].filter(isNew).map(([path]) => path);
  } catch {
    return [];
  }
}

/**
 * The manifests of a session, opened; topmost audience first.
 * @param {Session} session @param {FetchBlob} fetchBlob @returns {Promise<Shelf[]>}
 */
export async function shelvesOf(session, fetchBlob) {
  return Promise.all(
    session.audiences.map(async (audience) => {
      const now = await fetchManifest(audience.keys[audience.headKey], audience.head, fetchBlob);
      return { audience, now, before: null };
    }),
  );
}

/** @param {Shelf[]} shelves @param {string} path @returns {{keys: BlobKeys, entry: Entry} | null} the file of that path */
export function find(shelves, path) {
  for (const { audience, now } of shelves) {
    const entry = now.files.get(path);
    if (entry && audience.keys[entry.key]) return { keys: audience.keys[entry.key], entry };
  }
  return null;
}

/**
 * How a browser's path is meant: a file, a folder without its slash, or nothing.
 * @param {Shelf[]} shelves @param {string} path from the site's root, decoded
 * @returns {{path: string, redirect: boolean} | null}
 */
export function resolved(shelves, path) {
  const page = path === "" || path.endsWith("/") ? path + "index.html" : path;
  if (find(shelves, page)) return { path: page, redirect: false };
  if (find(shelves, path + "/index.html")) return { path: path + "/", redirect: true };
  return null;
}

/** @param {Shelf[]} shelves @returns {Map<string, BlobKeys>} every blob the reader needs, and what opens it */
export function allBlobs(shelves) {
  const all = new Map();
  for (const { audience, now } of shelves) {
    all.set(audience.head, audience.keys[audience.headKey]);
    for (const entry of now.files.values()) all.set(entry.blob, audience.keys[entry.key]);
  }
  return all;
}

