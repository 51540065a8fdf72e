// @ts-check
/** Sealed quiz results that nobody has said to have sent. They outlive being shut out and signing out. */

/** @param {import("./store.js").Store} store */
export function openOutbox(store) {
  /** @returns {Promise<string[]>} */
  const lines = async () => (await store.get("unsent")) || [];
  /** @type {Promise<unknown>} one change at a time: two tabs that finish together must not lose a line */
  let last = Promise.resolve();

  /** @param {(kept: string[]) => string[]} how @returns {Promise<string[]>} */
  function change(how) {
    const made = last.then(async () => {
      const left = how(await lines());
      await store.set("unsent", left);
      return left;
    });
    last = made.catch(() => null);
    return made;
  }

  return {
    lines,
    /** @param {string} line */
    add: (line) => change((kept) => [...kept, line]),
    /** @param {string} line @returns {Promise<string[]>} what is left */
    sent: (line) => change((kept) => kept.filter((l) => l !== line)),
  };
}
