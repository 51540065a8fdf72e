// @ts-check
/**
 * FSRS-6: when a question is asked again. Pure: no clock, no storage.
 *
 * Formulas and the 21 weights as published with the open FSRS-6 reference implementations
 * (tests/test_quiz_fsrs.py compares with one of them); no fuzz, so equal histories give equal dates. Times are milliseconds
 * since 1970, stability is in days.
 *
 * Memory: after t days the chance to recall is R = (1 + f t/S)^-w20, f = 0.9^(-1/w20) - 1.
 */

/** @typedef {1|2|3|4} Rating Again, Hard, Good, Easy */
/** @typedef {"learning"|"review"|"relearning"} Stage */
/**
 * @typedef {object} Card What the phone remembers about one question.
 * @property {Stage} stage
 * @property {number} step index into the (re)learning steps
 * @property {number|null} stability days until recall falls to 90 %; null: never asked
 * @property {number|null} difficulty 1 easy to 10 hard
 * @property {number} due
 * @property {number|null} last when it was last answered
 */
/**
 * @typedef {object} Settings
 * @property {readonly number[]} weights
 * @property {number} retention recall aimed at when a question falls due
 * @property {readonly number[]} learning minutes
 * @property {readonly number[]} relearning minutes
 * @property {number} longest days
 */

export const AGAIN = 1;
export const HARD = 2;
export const GOOD = 3;
export const EASY = 4;

const MINUTE = 60_000;
const DAY = 86_400_000;
const LEAST_STABILITY = 0.001;

/** @type {Settings} */
export const PUBLISHED = Object.freeze({
  weights: Object.freeze([
    0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796,
    1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
  ]),
  retention: 0.9,
  learning: Object.freeze([1, 10]),
  relearning: Object.freeze([10]),
  longest: 36_500,
});

/**
 * A question never asked yet, due now.
 * @param {number} now
 * @returns {Card}
 */
export function newCard(now) {
  return { stage: "learning", step: 0, stability: null, difficulty: null, due: now, last: null };
}

/**
 * Chance that he still knows it, 0 to 1; 0 for a question never asked.
 * @param {Card} card
 * @param {number} now
 * @param {Settings} [settings]
 */
export function recall(card, now, settings = PUBLISHED) {
  if (card.last === null || card.stability === null) return 0;
  const days = Math.max(0, wholeDays(now - card.last));
  const decay = settings.weights[20];
  return (1 + (0.9 ** (-1 / decay) - 1) * (days / card.stability)) ** -decay;
}

/**
 * The card after an answer at `now`.
 * @param {Card} card
 * @param {Rating} rating
 * @param {number} now
 * @param {Settings} [settings]
 * @returns {Card}
 */
export function review(card, rating, now, settings = PUBLISHED) {
  const memory = remember(card, rating, now, settings);
  const plan = schedule(card, rating, memory.stability, settings);
  return { ...memory, stage: plan.stage, step: plan.step, due: now + plan.wait, last: now };
}

/**
 * @param {Card} card @param {Rating} rating @param {number} now @param {Settings} settings
 * @returns {{stability: number, difficulty: number}}
 */
function remember(card, rating, now, settings) {
  const w = settings.weights;
  if (card.stability === null || card.difficulty === null) {
    return { stability: Math.max(w[rating - 1], LEAST_STABILITY), difficulty: clampDifficulty(firstDifficulty(w, rating)) };
  }
  const sameDay = card.last !== null && wholeDays(now - card.last) < 1;
  const stability = sameDay
    ? sameDayStability(w, card.stability, rating)
    : laterStability(w, card.difficulty, card.stability, recall(card, now, settings), rating);
  return { stability: Math.max(stability, LEAST_STABILITY), difficulty: nextDifficulty(w, card.difficulty, rating) };
}

/** D0(G) = w4 - e^(w5 (G-1)) + 1. @param {readonly number[]} w @param {number} rating */
function firstDifficulty(w, rating) {
  return w[4] - Math.exp(w[5] * (rating - 1)) + 1;
}

/** Damped step of -w6 (G-3), drawn by w7 toward D0(Easy). @param {readonly number[]} w @param {number} d @param {Rating} rating */
function nextDifficulty(w, d, rating) {
  const stepped = d + ((10 - d) * (-w[6] * (rating - 3))) / 9;
  return clampDifficulty(w[7] * firstDifficulty(w, EASY) + (1 - w[7]) * stepped);
}

/** @param {number} d */
function clampDifficulty(d) {
  return Math.min(Math.max(d, 1), 10);
}

/** S e^(w17 (G-3+w18)) S^-w19; a right answer never lowers it. @param {readonly number[]} w @param {number} s @param {Rating} rating */
function sameDayStability(w, s, rating) {
  const growth = Math.exp(w[17] * (rating - 3 + w[18])) * s ** -w[19];
  return s * (rating === AGAIN ? growth : Math.max(growth, 1));
}

/** @param {readonly number[]} w @param {number} d @param {number} s @param {number} r @param {Rating} rating */
function laterStability(w, d, s, r, rating) {
  if (rating === AGAIN) {
    const forgot = w[11] * d ** -w[12] * ((s + 1) ** w[13] - 1) * Math.exp((1 - r) * w[14]);
    return Math.min(forgot, s / Math.exp(w[17] * w[18]));
  }
  const effort = rating === HARD ? w[15] : rating === EASY ? w[16] : 1;
  return s * (1 + Math.exp(w[8]) * (11 - d) * s ** -w[9] * (Math.exp((1 - r) * w[10]) - 1) * effort);
}

/**
 * Stage, step and wait (ms) after a rating.
 * @param {Card} card @param {Rating} rating @param {number} stability @param {Settings} settings
 * @returns {{stage: Stage, step: number, wait: number}}
 */
function schedule(card, rating, stability, settings) {
  const days = { stage: /** @type {Stage} */ ("review"), step: 0, wait: interval(stability, settings) * DAY };
  if (card.stage === "review") {
    const lapsed = rating === AGAIN && settings.relearning.length > 0;
    return lapsed ? { stage: "relearning", step: 0, wait: settings.relearning[0] * MINUTE } : days;
  }
  const steps = settings[card.stage];
  if (steps.length === 0 || (card.step >= steps.length && rating !== AGAIN)) return days;
  if (rating === AGAIN) return { stage: card.stage, step: 0, wait: steps[0] * MINUTE };
  if (rating === HARD) return { stage: card.stage, step: card.step, wait: hardWait(steps, card.step) };
  if (rating === EASY || card.step + 1 === steps.length) return days;
  return { stage: card.stage, step: card.step + 1, wait: steps[card.step + 1] * MINUTE };
}

/** Hard on the first step waits between it and the next. @param {readonly number[]} steps @param {number} step */
function hardWait(steps, step) {
  if (step > 0) return steps[step] * MINUTE;
  return (steps.length === 1 ? steps[0] * 1.5 : (steps[0] + steps[1]) / 2) * MINUTE;
}

/** Whole days until recall falls to the retention aimed at. @param {number} stability @param {Settings} settings */
function interval(stability, settings) {
  const decay = -settings.weights[20];
  const days = (stability / (0.9 ** (1 / decay) - 1)) * (settings.retention ** (1 / decay) - 1);
  return Math.min(Math.max(roundHalfEven(days), 1), settings.longest);
}

/** As the reference implementation rounds. @param {number} value */
function roundHalfEven(value) {
  const floor = Math.floor(value);
  if (value - floor !== 0.5) return Math.round(value);
  return floor % 2 === 0 ? floor : floor + 1;
}

/** @param {number} ms */
function wholeDays(ms) {
  return Math.floor(ms / DAY);
}
