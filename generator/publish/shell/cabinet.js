// @ts-check
/** Sealed blobs as the phone keeps them: from its cache, else from the host. Opened scripts and looks stay at hand for a while. */
import { NotOpened, openBlob } from "./core.js";
import { fetched, isMissing } from "./fetching.js";

/** @typedef {import("./core.js").BlobKeys} Keys */
/** @typedef {ReturnType<typeof openCabinet>} Cabinet */

const AT_HAND = 4 * 1024 * 1024; // bytes of opened scripts, looks and pictures kept in memory

/** @param {string} base path of the site */
export function openCabinet(base) {
  const cacheName = "secondside:" + base + ":blobs";
  /** @type {Map<string, Uint8Array>} */
  const atHand = new Map();
  let size = 0;
  let full = false;
  let emptied = 0; // how often: what was asked for before belongs to whoever has signed out since

  const address = (/** @type {string} */ name) => `${base}_v/b/${name}`;

  /** The sealed bytes. @param {string} name @param {boolean} [afresh] past every cache */
  async function fetchBlob(name, afresh = false) {
    const round = emptied;
    const kept = afresh ? undefined : await caches.open(cacheName).then((cache) => cache.match(address(name))).catch(() => undefined);
    if (kept) return new Uint8Array(await kept.arrayBuffer());
    const past = () => fetched(address(name), { cache: "reload" });
    // hosts let a 404 be kept for minutes; a blob that came after its boot file would stay missing that long
    const onceMore = (/** @type {unknown} */ problem) => (isMissing(problem) ? past() : Promise.reject(problem));
    const data = afresh ? await past() : await fetched(address(name), {}).catch(onceMore);
    if (round === emptied) await put(name, data);
    return data;
  }

  /** @param {string} name @param {Uint8Array} data */
  async function put(name, data) {
    try {
      await (await caches.open(cacheName)).put(address(name), new Response(data));
    } catch {
      full = true;
    }
  }

  /** @param {string} name */
  async function drop(name) {
    await caches.open(cacheName).then((cache) => cache.delete(address(name))).catch(() => false);
  }

  /**
   * A kept copy that does not open (a damaged disk, a sign-in page of a hotel) is fetched once more, past every cache.
   * @template T @param {Keys} keys @param {string} name @param {(keys: Keys, name: string, data: Uint8Array) => Promise<T>} how
   * @returns {Promise<T>}
   */
  async function openWith(keys, name, how) {
    try {
      return await how(keys, name, await fetchBlob(name));
    } catch (problem) {
      if (!(problem instanceof NotOpened)) throw problem;
      await drop(name);
      const again = await fetchBlob(name, true);
      return how(keys, name, again).catch(async (/** @type {unknown} */ still) => {
        await drop(name); // a host that answers with something else: not counted among what is kept
        throw still;
      });
    }
  }

  /** The content of a blob. @param {Keys} keys @param {string} name @param {string} media */
  async function open(keys, name, media) {
    const held = atHand.get(name);
    if (held) return held;
    const content = await openWith(keys, name, openBlob);
    if (/css|javascript|svg|font/.test(media)) hold(name, content);
    return content;
  }

  /** @param {string} name @param {Uint8Array} content */
  function hold(name, content) {
    atHand.set(name, content);
    size += content.length;
    for (const [oldest, bytes] of atHand) {
      if (size <= AT_HAND) break;
      atHand.delete(oldest);
      size -= bytes.length;
    }
  }

  /** Fetches and keeps a blob if it opens; false when it could not be had. @param {Keys} keys @param {string} name @param {boolean} manifest */
  async function keep(keys, name, manifest) {
    try {
      await openWith(keys, name, (k, n, data) => openBlob(k, n, data, manifest));
      return true;
    } catch {
      return false;
    }
  }

  /** @returns {Promise<Set<string>>} */
  async function names() {
    const keys = await caches.open(cacheName).then((cache) => cache.keys()).catch(() => []);
    return new Set(keys.map((request) => request.url.slice(-32)));
  }

  function clearHand() {
    atHand.clear();
    size = 0;
  }

  async function empty() {
    clearHand();
    emptied += 1;
    await caches.delete(cacheName).catch(() => false);
  }

  return { fetchBlob, open, keep, drop, names, clearHand, empty, isFull: () => full };
}
