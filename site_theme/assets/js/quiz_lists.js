// @ts-check
/** The screens before and after the questions: what to choose, and what came out. */
import { button, el } from "./quiz_dom.js";
import { nearest } from "./quiz_place.js";
import { isFinished, placeError, score, toStudy } from "./quiz_session.js";
import { WORDS } from "./quiz_words.js";

/** @typedef {import("./quiz_types.js").Index} Index */
/** @typedef {import("./quiz_types.js").Question} Question */
/** @typedef {import("./quiz_types.js").Tonight} Tonight */
/** @typedef {import("./quiz_session.js").Session} Session */
/**
 * @typedef {object} Menu
 * @property {Index} index
 * @property {Tonight|null} game
 * @property {number} attempts finished tries of tonight's quiz
 * @property {number} due questions due today
 * @property {Session|null} open the quiz in progress
 * @property {number[]} positions
 * @property {boolean} kept
 * @property {{goOn: () => void, drop: () => void, tonight: () => void, due: () => void, five: () => void,
 *   play: (id: string, walk: boolean) => void, positions: (list: number[]) => void}} steps
 */

/** @param {Menu} menu @returns {HTMLElement} */
export function menuScreen(menu) {
  const { index, game, steps, open } = menu;
  return el("section", { class: "quiz-menu", "aria-labelledby": "quiz-begin" },
    el("h2", { id: "quiz-begin", tabindex: -1 }, WORDS.begin),
    menu.kept ? null : el("p", { class: "notice", role: "status" }, WORDS.notKept),
    open && !isFinished(open) ? el("div", { class: "quiz-open" },
      button(WORDS.goOn(nameOf(menu, open), open.at + 1, open.ids.length), steps.goOn),
      button(WORDS.drop, steps.drop, { class: "button-plain" })) : null,
    game ? tonight(menu, game) : null,
    button(menu.due ? WORDS.due(menu.due) : WORDS.nothingDue, steps.due, { disabled: menu.due === 0, class: "button-plain" }),
    button(WORDS.five, steps.five, { class: "button-plain" }),
    index.plays.length ? byPlay(menu) : el("p", {}, WORDS.empty),
    positionChoice(menu));
}

/** @param {Menu} menu @param {Session} open */
function nameOf(menu, open) {
  if (open.mode === "tonight") return menu.game && menu.game.id === open.quiz ? WORDS.tonight(menu.game.against, open.ids.length) : WORDS.five;
  return menu.index.plays.find((p) => p.id === open.plays[0] && open.plays.length === 1)?.name ?? WORDS.five;
}

/** @param {Menu} menu @param {Tonight} game */
function tonight({ attempts, steps }, game) {
  return el("div", { class: "quiz-tonight" },
    button(attempts ? WORDS.tonightAgain(game.against) : WORDS.tonight(game.against, game.questions), steps.tonight),
    el("p", { class: "small" }, attempts ? WORDS.countedBefore : WORDS.firstCounts));
}

/** @param {Menu} menu */
function byPlay({ index, steps }) {
  const list = /** @type {HTMLSelectElement} */ (el("select", { class: "quiz-select", id: "quiz-play" },
    ...index.plays.map((p) => el("option", { value: p.id }, p.name))));
  return el("fieldset", { class: "quiz-by-play" }, el("legend", {}, WORDS.byPlay),
    el("label", { class: "quiz-label", for: "quiz-play" }, WORDS.choosePlay), list,
    button(WORDS.practise, () => steps.play(list.value, false), { class: "button-plain" }),
    button(WORDS.walk, () => steps.play(list.value, true), { class: "button-plain" }));
}

/** @param {Menu} menu */
function positionChoice({ positions, steps }) {
  const has = (/** @type {number} */ n) => positions.includes(n);
  const turn = (/** @type {number} */ n) => steps.positions(has(n) ? positions.filter((p) => p !== n) : [...positions, n].sort());
  return el("fieldset", { class: "quiz-positions" }, el("legend", {}, WORDS.asPosition),
    ...[1, 2, 3, 4, 5].map((n) => button(String(n), () => turn(n), { class: "button-plain quiz-position", "aria-pressed": has(n), "aria-label": WORDS.position(n) })),
    positions.length ? null : el("p", { class: "small" }, WORDS.everyPosition));
}

/**
 * @param {{session: Session, known: Map<string, Question>, index: Index, counts: boolean, back: () => void,
 *   pageOf: (play: string) => string}} what
 * @returns {HTMLElement}
 */
export function endScreen({ session, known, index, counts, back, pageOf }) {
  const { right, of } = score(session, known);
  const study = session.mode === "walk" ? [] : toStudy(session, known);
  return el("section", { class: "quiz-end", "aria-labelledby": "quiz-done" },
    el("h2", { id: "quiz-done", tabindex: -1 }, session.mode === "walk" ? WORDS.walked : WORDS.score(right, of)),
    session.mode === "tonight" ? el("p", {}, counts ? WORDS.countedFirst : WORDS.countedBefore) : null,
    session.mode !== "walk" && study.length === 0 ? el("p", {}, WORDS.allRight) : null,
    study.length ? el("h3", {}, WORDS.study) : null,
    ...study.map(({ play, missed }) => studyPlay(index, session, play, missed, pageOf(play))),
    el("div", { class: "quiz-foot" }, button(WORDS.back, back, { class: "quiz-next" })));
}

/** @param {Index} index @param {Session} session @param {string} play @param {Question[]} missed @param {string} page */
function studyPlay(index, session, play, missed, page) {
  const name = index.plays.find((p) => p.id === play)?.name ?? "";
  return el("div", { class: "quiz-study" }, el("h4", {}, name), el("ul", {}, ...missed.map((q) => studyLine(index, session, q, page))));
}

/** @param {Index} index @param {Session} session @param {Question} question @param {string} page */
function studyLine(index, session, question, page) {
  const choice = session.answers[question.id] ?? [];
  const place = question.kind === "place";
  const said = place ? choice.length ? WORDS.away(placeError(question, choice)) : "" : choice.map((i) => question.options[i]).join(" / ") || WORDS.noneOfIt;
  const rightText = place ? `the ${nearest(index, question.at ?? [0, 0])}` : question.right.map((i) => question.options[i]).join(" / ");
  return el("li", {}, el("p", { class: "quiz-asked" }, question.prompt),
    said ? el("p", { class: "quiz-wrong" }, place ? said : `${said} (${WORDS.yours})`) : null,
    rightText ? el("p", { class: "quiz-right" }, WORDS.rightIs(rightText)) : null,
    question.why ? el("p", { class: "small" }, question.why) : null,
    page ? el("p", {}, el("a", { href: question.moment ? `${page}#${question.moment}` : page }, WORDS.inPlay)) : null);
}
