// @ts-check
/** Keeping everything of a seat for later, so that it can be read without a signal. */
import { allBlobs } from "./book.js";

/** @typedef {import("./book.js").Session} Session */
/** @typedef {import("./book.js").Shelf} Shelf */

const PARALLEL = 6;

/**
 * @param {import("./cabinet.js").Cabinet} cabinet
 * @param {{
 *   seated: () => Session | null | undefined, current: () => Promise<Session | null>, onShelf: () => Promise<Shelf[]>,
 *   manifestBefore: (shelf: Shelf) => Promise<import("./core.js").Manifest | null>, tell: (message: object) => Promise<void>
 * }} worker `seated` is who has the seat at this moment, `current` looks him up first
 */
export function openSaving(cabinet, { seated, current, onShelf, manifestBefore, tell }) {
  /** @type {Promise<void> | null} */
  let running = null;

  /** Fetches what is missing for reading without a signal, then drops what no manifest names any more. */
  function save() {
    running ??= saveAll().finally(() => (running = null));
    return running.then(progress);
  }

  /** Once more from the beginning when the seat or the version has changed meanwhile. */
  async function saveAll() {
    for (let of = await current(); of; of = seated() === of ? null : seated() || null) await saveOf(of);
  }

  /** @param {Session} of */
  async function saveOf(of) {
    const shelf = await onShelf();
    const heads = new Set(shelf.map(({ audience }) => audience.head));
    const wanted = allBlobs(shelf);
    const kept = await cabinet.names();
    const missing = [...wanted].filter(([name]) => !kept.has(name));
    let done = wanted.size - missing.length;
    const next = async () => {
      for (let job = missing.pop(); job && seated() === of && !cabinet.isFull(); job = missing.pop()) {
        const good = await cabinet.keep(job[1], job[0], heads.has(job[0]));
        if (good) done += 1;
        if (good && done % 10 === 0) await tell({ said: "saving", done, of: wanted.size });
      }
    };
    await Promise.all(Array.from({ length: PARALLEL }, next));
    if (seated() !== of) return;
    await tell({ said: done === wanted.size ? "saved" : cabinet.isFull() ? "full" : "saving", done, of: wanted.size });
    if (done === wanted.size) await dropOthers(shelf, new Set(wanted.keys()));
  }

  /** @param {Shelf[]} shelf @param {Set<string>} stays */
  async function dropOthers(shelf, stays) {
    for (const one of shelf) {
      const before = await manifestBefore(one);
      if (before) stays.add(one.audience.before);
      before?.files.forEach((entry) => stays.add(entry.blob));
    }
    for (const name of await cabinet.names()) if (!stays.has(name)) await cabinet.drop(name);
  }

  async function progress() {
    const now = seated();
    if (!now || now.out) return { done: 0, of: 0 };
    try {
      const wanted = allBlobs(await onShelf());
      const kept = await cabinet.names();
      return { done: [...wanted.keys()].filter((name) => kept.has(name)).length, of: wanted.size };
    } catch {
      return { done: 0, of: 0 };
    }
  }

  return { save, progress };
}
