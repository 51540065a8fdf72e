// @ts-check
/** Sealed quiz results that nobody has said to have sent. They outlive being shut out and signing out. */

/** @param {import("./store.js").Store} store */
export function openOutbox(store) {
  /** @returns {Promise<string[]>} */
  const lines = async () => (await store.get("unsent")) || [];
  return {
    lines,
    /** @param {string} line */
    async add(line) {
      await store.set("unsent", [...(await lines()), line]);
    },
    /** @param {string} line @returns {Promise<string[]>} what is left */
    async sent(line) {
      const left = (await lines()).filter((l) => l !== line);
      await store.set("unsent", left);
      return left;
    },
  };
}
