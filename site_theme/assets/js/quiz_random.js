// @ts-check
/**
 * Seeded draws: the same seed gives the same numbers on every phone and in Python
 * (`generator/quiz/draws.py` is the same arithmetic; a test compares the two).
 *
 * 32-bit state advanced by a Weyl step of 0x9E3779B9 and mixed by two multiply-xorshift rounds.
 */

/** @typedef {() => number} Draw A whole number from 0 to 2^32 - 1. */

/**
 * A 32-bit digest of a text (FNV-1a over its UTF-8 bytes).
 * @param {string} text
 */
export function digest(text) {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) {
    hash = Math.imul(hash ^ byte, 0x01000193);
  }
  return hash >>> 0;
}

/**
 * @param {string} seed
 * @returns {Draw}
 */
export function seeded(seed) {
  let state = digest(seed);
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return (z ^ (z >>> 15)) >>> 0;
  };
}

/**
 * A whole number from 0 to n - 1.
 * @param {Draw} draw @param {number} n
 */
export function below(draw, n) {
  return Math.floor((draw() * n) / 2 ** 32);
}

/**
 * The items in a drawn order; the input stays as it is.
 * @template T
 * @param {Draw} draw @param {readonly T[]} items
 * @returns {T[]}
 */
export function shuffled(draw, items) {
  const out = [...items];
  for (let i = out.length - 1; i > 0; i -= 1) {
    const j = below(draw, i + 1);
    [out[i], out[j]] = [out[j], out[i]];
  }
  return out;
}

/**
 * One index, in proportion to whole-number weights; -1 when they are all zero.
 * @param {Draw} draw @param {readonly number[]} weights
 */
export function weighted(draw, weights) {
  const total = weights.reduce((sum, w) => sum + w, 0);
  if (total <= 0) return -1;
  let rest = below(draw, total);
  return weights.findIndex((w) => (rest -= w) < 0);
}
