// @ts-check
/**
 * What the phone keeps for one person: the quiz in progress, practice cards by play, finished results.
 *
 * Storage may be missing, blocked or full: then values live as long as the page and `kept` says so; nothing
 * here throws. A value that cannot be read counts as absent.
 */
import { isSession } from "./quiz_session.js";

/** @typedef {import("./fsrs.js").Card} Card */
/** @typedef {import("./quiz_types.js").Result} Result */
/** @typedef {import("./quiz_session.js").Session} Session */
/** @typedef {Pick<Storage, "getItem"|"setItem"|"removeItem">} Shelf */

const STAGES = ["learning", "review", "relearning"];

/** The browser's storage, or null where it is blocked. @returns {Shelf|null} */
export function browserShelf() {
  try {
    const probe = "secondside:probe";
    window.localStorage.setItem(probe, "1");
    window.localStorage.removeItem(probe);
    return window.localStorage;
  } catch {
    try {
      return window.localStorage.length > 0 ? window.localStorage : null; // full, but readable
    } catch {
      return null;
    }
  }
}

/**
 * @param {Shelf|null} shelf
 * @param {string} who roster key
 * @param {string} [site] path of the site: two books on one host never mix
 */
export function openStore(shelf, who, site = "/") {
  /** @type {Map<string, string|null>} what the shelf would not take */
  const spill = new Map();
  let kept = shelf !== null;
  const key = (/** @type {string} */ name) => `secondside:${site}:quiz1/${encodeURIComponent(who)}/${name}`;

  /** @param {string} name @returns {unknown} */
  function load(name) {
    try {
      const text = spill.has(name) ? spill.get(name) : shelf?.getItem(key(name));
      return text ? JSON.parse(text) : null;
    } catch {
      return null;
    }
  }

  /** @param {string} name @param {unknown} value null removes it */
  function save(name, value) {
    const text = value === null ? null : JSON.stringify(value);
    try {
      if (!shelf) throw new Error("no storage");
      if (text === null) shelf.removeItem(key(name));
      else shelf.setItem(key(name), text);
      spill.delete(name);
      kept = spill.size === 0;
    } catch {
      spill.set(name, text);
      kept = false;
    }
    return kept;
  }

  return {
    /** False as long as something lives only in this page. */
    get kept() {
      return kept;
    },
    /** @returns {Session|null} */
    session() {
      const value = load("session");
      return isSession(value) ? value : null;
    },
    /** @param {Session|null} session */
    saveSession(session) {
      return save("session", session);
    },
    /** @param {string} play @returns {Map<string, Card>} */
    cards(play) {
      return readCards(load(`cards/${play}`));
    },
    /** @param {string} play @param {Iterable<[string, Card]>} changed by question id; the others stay */
    saveCards(play, changed) {
      const cards = new Map([...readCards(load(`cards/${play}`)), ...changed]);
      return save(`cards/${play}`, Object.fromEntries([...cards].map(([id, c]) => [id, packCard(c)])));
    },
    /** @returns {Result[]} */
    results() {
      const value = load("results");
      return Array.isArray(value) ? value.filter((r) => r && r.version === 1 && typeof r.quiz === "string") : [];
    },
    /** Adds a result; one of the same quiz, book and attempt is never overwritten. @param {Result} result */
    addResult(result) {
      const before = this.results();
      const same = before.some((r) => r.quiz === result.quiz && r.book === result.book && r.attempt === result.attempt);
      return same ? kept : save("results", [...before, result]);
    },
    /** How often this quiz was finished. @param {string} quiz */
    attempts(quiz) {
      return this.results().filter((r) => r.quiz === quiz).length;
    },
  };
}

/** @typedef {ReturnType<typeof openStore>} Store */

/** @param {Card} card */
function packCard(card) {
  return [STAGES.indexOf(card.stage), card.step, round(card.stability), round(card.difficulty), card.due, card.last];
}

/** Six digits are beyond what the schedule can tell. @param {number|null} value */
function round(value) {
  return value === null ? null : Number(value.toPrecision(10));
}

/** @param {any} value @returns {Map<string, Card>} */
function readCards(value) {
  const cards = new Map();
  if (!value || typeof value !== "object") return cards;
  for (const [id, packed] of Object.entries(value)) {
    if (!Array.isArray(packed) || !STAGES[packed[0]] || !Number.isFinite(packed[4])) continue;
    const [stage, step, stability, difficulty, due, last] = packed;
    cards.set(id, { stage: STAGES[stage], step, stability, difficulty, due, last });
  }
  return cards;
}
