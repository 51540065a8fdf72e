// @ts-check
/** Pictures of a printed play as large as one sheet allows. It stands in the paper itself, which needs no other file. */

/** Millimetres of a sheet between its margins. */
const SHEET = { A4: 275, letter: 257 };
const PX_PER_MM = 96 / 25.4;
/** Room for what differs between screen and paper. */
const SPARE = 0.975;
/** Widths of a phase's and of an answer's picture in millimetres, and whether type is small; the best to look at first.
 * @type {[number, number, boolean][]} */
const SIZES = [
  [112, 66, false], [104, 62, false], [96, 58, false], [90, 55, false], [85, 52, false], [80, 50, false], [76, 48, false],
  [72, 46, false], [68, 43, false], [74, 46, true], [70, 44, true], [66, 42, true], [62, 40, true], [58, 39, true],
  [54, 38, true], [50, 37, true], [45, 33, true],
];

/** @param {HTMLElement} play @param {[number, number, boolean]} size */
function set(play, [phase, answer, small]) {
  play.classList.toggle("paper-dense", small);
  play.style.setProperty("--phase", `${phase}mm`);
  play.style.setProperty("--answer", `${answer}mm`);
}

/** Tries the sizes until the play stands on one sheet; one that never does keeps what the paper began with.
 * @param {HTMLElement} play @param {number} height of the sheet, CSS pixels */
export function fit(play, height) {
  const dense = play.classList.contains("paper-dense");
  for (const size of SIZES) {
    set(play, size);
    if (play.offsetHeight <= height) return;
  }
  play.removeAttribute("style");
  play.classList.toggle("paper-dense", dense);
}

const sheet = SHEET[/** @type {"A4" | "letter"} */ (document.body.dataset.paper)] ?? SHEET.letter;
const plays = /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".paper:not(.paper-booklet) .paper-play"));
for (const play of plays) fit(play, sheet * PX_PER_MM * SPARE);
