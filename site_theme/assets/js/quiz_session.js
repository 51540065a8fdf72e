// @ts-check
/**
 * One quiz in progress as a value: every step returns a new one, all of it survives JSON.
 *
 * Modes: `practice` shows what was right after each answer; `tonight` only at the end; `walk` asks
 * nothing of the score and lets him look at the answer first.
 */
import { seeded, shuffled } from "./quiz_random.js";

/** @typedef {import("./quiz_types.js").Question} Question */
/** @typedef {import("./quiz_types.js").Choice} Choice */
/** @typedef {import("./quiz_types.js").Result} Result */
/** @typedef {"practice"|"tonight"|"walk"} Mode */
/**
 * @typedef {object} Session
 * @property {1} version
 * @property {Mode} mode
 * @property {string} quiz
 * @property {string} who
 * @property {string} book
 * @property {number} attempt
 * @property {string} seed
 * @property {string[]} ids
 * @property {string[]} plays whose banks it needs
 * @property {number} at index of the question on the screen; `ids.length`: finished
 * @property {boolean} shown its answer is on the screen
 * @property {Record<string, Choice>} answers
 * @property {number|null} ended
 */
/** @typedef {Map<string, Question>} Known questions by id */

/**
 * @param {{mode: Mode, quiz: string, who: string, book: string, attempt: number, seed: string}} plan
 * @param {readonly Question[]} questions
 * @returns {Session}
 */
export function begin(plan, questions) {
  const ids = [...new Set(questions.map((q) => q.id))];
  const plays = [...new Set(questions.map((q) => q.play))];
  return { version: 1, ...plan, ids, plays, at: 0, shown: false, answers: {}, ended: ids.length ? null : 0 };
}

/** The id on the screen, or "" when finished. @param {Session} session */
export function currentId(session) {
  return session.ids[session.at] ?? "";
}

/** @param {Session} session */
export function isFinished(session) {
  return session.at >= session.ids.length;
}

/**
 * In which order this person sees the options: indexes into `question.options`.
 * @param {string} seed @param {Question} question
 */
export function optionOrder(seed, question) {
  return shuffled(seeded(`${seed}/${question.id}`), question.options.map((_, i) => i));
}

/** @param {Question} question @param {Choice|undefined} choice */
export function isRight(question, choice) {
  if (!choice) return false;
  if (question.kind === "place") return placeError(question, choice) <= (question.within ?? 0);
  return choice.length === question.right.length && question.right.every((i) => choice.includes(i));
}

/** Metres between the tap and the place. @param {Question} question @param {Choice} choice */
export function placeError(question, choice) {
  const [x, y] = question.at ?? [NaN, NaN];
  return Math.hypot(choice[0] - x, choice[1] - y);
}

/**
 * Takes an answer to the question on the screen. In `tonight` it may be changed until `next`; in the
 * other modes the first one stands.
 * @param {Session} session @param {Choice} choice
 * @returns {Session}
 */
export function answer(session, choice) {
  const id = currentId(session);
  if (!id || session.shown || choice.length === 0) return session;
  const answers = { ...session.answers, [id]: [...choice] };
  return { ...session, answers, shown: session.mode !== "tonight" };
}

/** Shows what is right without an answer; only a walk-through may. @param {Session} session @returns {Session} */
export function reveal(session) {
  return session.mode === "walk" && !isFinished(session) ? { ...session, shown: true } : session;
}

/**
 * On to the next question; an unanswered one holds him, except in a walk-through.
 * @param {Session} session @param {number} now milliseconds since 1970
 * @returns {Session}
 */
export function next(session, now) {
  if (isFinished(session)) return session;
  if (!(currentId(session) in session.answers) && !(session.mode === "walk" && session.shown)) return session;
  const at = session.at + 1;
  return { ...session, at, shown: false, ended: at >= session.ids.length ? now : null };
}

/**
 * A stored session against the banks of today: questions that are gone are dropped, the rest goes on where
 * it stopped. Null when there is nothing left to ask or the value is not a session.
 * @param {unknown} saved @param {Known} known
 * @returns {Session|null}
 */
export function restore(saved, known) {
  if (!isSession(saved)) return null;
  const ids = saved.ids.filter((id) => known.has(id));
  if (ids.length === 0) return null;
  const passed = saved.ids.slice(0, saved.at).filter((id) => known.has(id)).length;
  const shown = saved.shown && known.has(saved.ids[saved.at] ?? "");
  const answers = Object.fromEntries(Object.entries(saved.answers).filter(([id]) => known.has(id)));
  const ended = passed >= ids.length ? saved.ended ?? 0 : null;
  return { ...saved, ids, at: passed, shown, answers, ended };
}

/** @param {any} value @returns {value is Session} */
export function isSession(value) {
  return Boolean(value) && value.version === 1 && ["practice", "tonight", "walk"].includes(value.mode)
    && Array.isArray(value.ids) && value.ids.every((/** @type {unknown} */ id) => typeof id === "string")
    && Array.isArray(value.plays) && Number.isInteger(value.at) && value.at >= 0 && value.at <= value.ids.length
    && typeof value.seed === "string" && typeof value.answers === "object" && value.answers !== null;
}

/** @param {Session} session @param {Known} known */
export function score(session, known) {
  const right = session.ids.filter((id) => isRight(/** @type {Question} */ (known.get(id)), session.answers[id]));
  return { right: right.length, of: session.ids.length };
}

/**
 * What is stored until it is sent.
 * @param {Session} session @param {Known} known
 * @returns {Result}
 */
export function result(session, known) {
  /** @type {Result["answers"]} */
  const answers = {};
  for (const id of session.ids) {
    const question = known.get(id);
    const choice = session.answers[id];
    if (question && choice) answers[id] = { choice, right: isRight(question, choice), play: question.play };
  }
  const { who, quiz, book, attempt } = session;
  return { version: 1, who, quiz, book, attempt, ended: session.ended ?? 0, answers };
}

/**
 * What to study after it: the missed questions by play, the play with the most misses first.
 * @param {Session} session @param {Known} known
 * @returns {{play: string, missed: Question[]}[]}
 */
export function toStudy(session, known) {
  /** @type {Map<string, Question[]>} */
  const byPlay = new Map();
  for (const id of session.ids) {
    const question = known.get(id);
    if (!question || isRight(question, session.answers[id])) continue;
    byPlay.set(question.play, [...(byPlay.get(question.play) ?? []), question]);
  }
  return [...byPlay].map(([play, missed]) => ({ play, missed })).sort((a, b) => b.missed.length - a.missed.length);
}
