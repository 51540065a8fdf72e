// @ts-check
/** Loads the index, banks and pictures when they are needed, each once. A failed load may be tried again. */

/** @typedef {import("./quiz_types.js").Index} Index */
/** @typedef {import("./quiz_types.js").Bank} Bank */
/** @typedef {import("./quiz_types.js").Question} Question */
/** @typedef {{floor: string, pictures: Record<string, string>}} Pictures */
/** @typedef {(address: string) => Promise<any>} Fetcher */

/** @type {Fetcher} */
export async function fetchJson(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${answer.status} ${address}`);
  return answer.json();
}

/**
 * @param {string} address of the index
 * @param {Fetcher} [get]
 */
export function openBanks(address, get = fetchJson) {
  /** @type {Map<string, Promise<any>>} */
  const coming = new Map();
  /** @param {string} relative */
  const once = (relative) => {
    const full = new URL(relative, new URL(address, document.baseURI)).href;
    const known = coming.get(full);
    if (known) return known;
    const load = get(full);
    coming.set(full, load);
    load.catch(() => coming.delete(full));
    return load;
  };
  return {
    /** @returns {Promise<Index>} */
    async index() {
      const value = await once(new URL(address, document.baseURI).href);
      if (!value || value.version !== 1 || !Array.isArray(value.plays)) throw new Error("not an index of questions");
      return value;
    },
    /** @param {readonly string[]} plays ids @returns {Promise<Question[]>} questions of those still in the book */
    async questions(plays) {
      const entries = (await this.index()).plays.filter((p) => plays.includes(p.id));
      const banks = await Promise.all(entries.map((p) => /** @type {Promise<Bank>} */ (once(p.bank))));
      return banks.flatMap((bank) => (bank && bank.version === 1 && Array.isArray(bank.questions) ? bank.questions : []));
    },
    /** The pictures of a play; none when they do not load: every question can be answered without. @param {string} play @returns {Promise<Pictures>} */
    async pictures(play) {
      const entry = (await this.index()).plays.find((p) => p.id === play);
      if (!entry?.pictures) return { floor: "", pictures: {} };
      try {
        const value = await once(entry.pictures);
        return { floor: String(value.floor ?? ""), pictures: value.pictures ?? {} };
      } catch {
        return { floor: "", pictures: {} };
      }
    },
    /** @param {string} play @param {"page"|"motion"} what @returns {Promise<string>} full address or "" */
    async addressOf(play, what) {
      const entry = (await this.index()).plays.find((p) => p.id === play);
      const relative = entry?.[what];
      return relative ? new URL(relative, new URL(address, document.baseURI)).href : "";
    },
  };
}

/** @typedef {ReturnType<typeof openBanks>} Banks */
