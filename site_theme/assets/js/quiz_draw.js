// @ts-check
/**
 * Which questions a quiz asks. Pure and seeded. No question twice, never the left and right version of the same one
 * in one quiz, and two that ask the same thing (a job and the place it ends at) only where there is nothing else.
 */
import { seeded, shuffled, weighted } from "./quiz_random.js";

/** @typedef {import("./quiz_types.js").Question} Question */
/** @typedef {import("./quiz_types.js").Tonight} Tonight */
/** @typedef {import("./fsrs.js").Card} Card */

/** Out of ten questions before a game about so many are of each kind; kinds a book lacks give way to the others. */
const SHARES = Object.freeze({ read: 45, job: 20, place: 10, next: 10, call: 8, tell: 7 });
const UNNAMED_COVERAGE = 1; // a coverage the game plan does not name weighs as much as a weight of 1
const SCALE = 1000; // weights are whole numbers inside the draw

/**
 * Questions this person may be asked: his positions and everybody's.
 * @param {readonly Question[]} questions @param {readonly number[]} positions empty: all
 */
export function forPositions(questions, positions) {
  return questions.filter((q) => q.pos === 0 || positions.length === 0 || positions.includes(q.pos));
}

/**
 * Practice: what is due first (longest due first), then what was never asked, in a drawn order that mixes the kinds.
 * @param {readonly Question[]} questions @param {Map<string, Card>} cards by question id
 * @param {number} now @param {number} count @param {string} seed
 */
export function drawPractice(questions, cards, now, count, seed) {
  const due = dueQuestions(questions, cards, now);
  const fresh = mixed(seeded(seed), questions.filter((q) => !cards.has(q.id)));
  const later = [...questions].filter((q) => (cards.get(q.id)?.due ?? 0) > now)
    .sort((a, b) => dueOf(cards, a) - dueOf(cards, b) || order(a, b));
  return withoutTwins([...due, ...fresh, ...later], count);
}

/**
 * In a drawn order in which every stretch holds the kinds by their shares, as far as there are any left.
 * @param {import("./quiz_random.js").Draw} draw @param {readonly Question[]} questions
 */
function mixed(draw, questions) {
  /** @type {Map<string, number>} */
  const next = new Map();
  const ranked = shuffled(draw, questions).map((question) => {
    const share = SHARES[question.kind] ?? 1;
    const rank = next.get(question.kind) ?? draw() / 2 ** 32 / share;
    next.set(question.kind, rank + 1 / share);
    return { question, rank };
  });
  return ranked.sort((a, b) => a.rank - b.rank).map(({ question }) => question);
}

/**
 * The questions that are due now, longest due first.
 * @param {readonly Question[]} questions @param {Map<string, Card>} cards @param {number} now
 */
export function dueQuestions(questions, cards, now) {
  return questions.filter((q) => cards.has(q.id) && dueOf(cards, q) <= now)
    .sort((a, b) => dueOf(cards, a) - dueOf(cards, b) || order(a, b));
}

/**
 * Tonight's quiz: kinds by their share; inside a kind expected coverages weigh more, and a play already
 * asked about weighs half for each time.
 * @param {readonly Question[]} questions of tonight's plays and this person's positions
 * @param {Tonight} game @param {string} seed
 */
export function drawTonight(questions, game, seed) {
  const draw = seeded(seed);
  const plays = new Set(game.plays);
  let pool = [...questions].filter((q) => plays.has(q.play)).sort(order);
  /** @type {Question[]} */
  let spare = []; // ask what has been asked, in another way
  /** @type {Question[]} */
  const chosen = [];
  while (chosen.length < game.questions && pool.length + spare.length > 0) {
    if (pool.length === 0) [pool, spare] = [spare, []];
    const kind = drawKind(draw, pool, chosen);
    const ofKind = pool.filter((q) => q.kind === kind);
    const question = ofKind[weighted(draw, ofKind.map((q) => weight(q, game, chosen)))];
    chosen.push(question);
    const again = pool.filter((q) => isAlike(q, question) && q.twin !== question.twin);
    spare = [...spare, ...again].filter((q) => q.twin !== question.twin);
    pool = pool.filter((q) => q.twin !== question.twin && !again.includes(q));
  }
  return chosen;
}

/**
 * The kind that is farthest behind its share, drawn among those still there.
 * @param {import("./quiz_random.js").Draw} draw @param {readonly Question[]} pool @param {readonly Question[]} chosen
 */
function drawKind(draw, pool, chosen) {
  const kinds = Object.keys(SHARES).filter((kind) => pool.some((q) => q.kind === kind));
  const weights = kinds.map((kind) => {
    const asked = chosen.filter((q) => q.kind === kind).length;
    return Math.max(1, SHARES[/** @type {import("./quiz_types.js").Kind} */ (kind)] - asked * 10);
  });
  return kinds[weighted(draw, weights)];
}

/** @param {Question} question @param {Tonight} game @param {readonly Question[]} chosen */
function weight(question, game, chosen) {
  const expected = question.coverage ? game.coverages[question.coverage] ?? UNNAMED_COVERAGE : UNNAMED_COVERAGE;
  const asked = chosen.filter((q) => q.play === question.play).length;
  return Math.max(1, Math.round((SCALE * Math.max(0, expected)) / 2 ** asked));
}

/**
 * The first `count` without a second version of the same question; those that ask the same thing in another way come
 * last.
 * @param {readonly Question[]} questions @param {number} count
 */
export function withoutTwins(questions, count) {
  const seen = new Set();
  const single = questions.filter((q) => !seen.has(q.twin) && seen.add(q.twin));
  const themes = new Set();
  const first = single.filter((q) => !(q.themes ?? []).some((t) => themes.has(t)) && (q.themes ?? []).every((t) => themes.add(t)));
  const taken = new Set(first);
  return [...first, ...single.filter((q) => !taken.has(q))].slice(0, count);
}

/** @param {Question} a @param {Question} b whether they ask about the same thing */
function isAlike(a, b) {
  return (a.themes ?? []).some((theme) => (b.themes ?? []).includes(theme));
}

/** @param {Map<string, Card>} cards @param {Question} question */
function dueOf(cards, question) {
  return cards.get(question.id)?.due ?? Infinity;
}

/** @param {Question} a @param {Question} b */
function order(a, b) {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}
