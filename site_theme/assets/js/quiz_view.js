// @ts-check
/**
 * One question on the screen: picture, options, what was right, the next step. Builds elements from a session and a
 * question; decides nothing.
 */
import { button, el, pictureOf } from "./quiz_dom.js";
import { nearest, placeField } from "./quiz_place.js";
import { currentId, isRight, optionOrder, placeError } from "./quiz_session.js";
import { WORDS } from "./quiz_words.js";

/** @typedef {import("./quiz_types.js").Question} Question */
/** @typedef {import("./quiz_types.js").Choice} Choice */
/** @typedef {import("./quiz_types.js").Index} Index */
/** @typedef {import("./quiz_types.js").Clip} Clip */
/** @typedef {import("./quiz_session.js").Session} Session */
/**
 * @typedef {object} Steps What the screen may ask for.
 * @property {(choice: Choice) => void} choose remembers a choice without committing it
 * @property {(choice: Choice) => void} commit
 * @property {() => void} confirm commits what was chosen
 * @property {() => void} next
 * @property {() => void} reveal
 * @property {() => void} stop
 * @property {(place: HTMLElement, clip: Clip) => void} move
 */
/**
 * @param {{session: Session, question: Question, index: Index, pictures: Record<string, string>, picked: Choice,
 *   page: string, canMove: boolean, steps: Steps}} what
 * @returns {HTMLElement}
 */
export function questionScreen(what) {
  const { session, question, steps } = what;
  const at = session.ids.indexOf(currentId(session)) + 1;
  return el("section", { class: "quiz-question", "aria-labelledby": "quiz-prompt" },
    el("div", { class: "quiz-head" },
      el("p", { class: "quiz-progress" }, WORDS.progress(at, session.ids.length)),
      button(WORDS.stop, steps.stop, { class: "button-plain quiz-small" })),
    el("progress", { class: "quiz-bar", max: session.ids.length, value: at - 1, "aria-hidden": "true" }),
    el("h2", { id: "quiz-prompt", class: "quiz-prompt", tabindex: -1 }, question.prompt),
    question.kind === "place" ? null : figure(what),
    answerField(what),
    feedback(what),
    footer(what));
}

/** @param {Parameters<typeof questionScreen>[0]} what */
function figure({ question, pictures, session, canMove, steps }) {
  const drawn = pictures[question.picture ?? ""] ? pictureOf(pictures[question.picture ?? ""]) : null;
  const clip = question.clip;
  const place = el("div", { class: "motion quiz-motion" });
  /** @type {HTMLElement|null} */
  const move = clip && canMove && !session.shown
    ? button(WORDS.move, () => { steps.move(place, clip); drawn?.remove(); move?.remove(); }, { class: "button-plain quiz-small" }) : null;
  if (!drawn && !move) return null;
  return el("figure", { class: "picture quiz-picture" }, drawn, move, place);
}

/** @param {Parameters<typeof questionScreen>[0]} what */
function answerField(what) {
  const { question, session, picked, index, pictures, steps } = what;
  if (question.kind === "place") {
    const chosen = /** @type {[number, number]|null} */ (picked.length === 2 ? [picked[0], picked[1]] : null);
    return placeField({ index, question, picture: pictures[question.picture ?? ""] ?? "", chosen, shown: session.shown, choose: steps.choose });
  }
  const many = question.right.length > 1;
  const options = optionOrder(session.seed, question).map((option, i) => optionButton(what, option, i + 1));
  return el("div", {}, many && !session.shown ? el("p", { class: "quiz-said" }, WORDS.several) : null,
    el("div", { class: "quiz-options", role: "group", "aria-labelledby": "quiz-prompt" }, ...options));
}

/** @param {Parameters<typeof questionScreen>[0]} what @param {number} option @param {number} number */
function optionButton({ question, session, picked, steps }, option, number) {
  const isPlayer = question.kind === "next"; // a key of its own beside a player's number would be read as a player
  const key = isPlayer ? question.options[option] : String(number);
  const taken = picked.includes(option);
  const right = question.right.includes(option);
  const look = !session.shown ? "" : right ? "is-right" : taken ? "is-wrong" : "is-other";
  const tags = [session.shown && right ? WORDS.rightMark : "", session.shown && taken ? WORDS.yours : ""].filter(Boolean);
  return el("button", {
    type: "button", class: `quiz-option ${look}`.trim(), "data-key": key, "aria-pressed": taken, disabled: session.shown,
    click: () => press(question, session, picked, option, steps),
  }, isPlayer ? null : el("span", { class: "quiz-key", "aria-hidden": "true" }, key), el("span", { class: "quiz-text" }, question.options[option]),
  tags.length ? el("span", { class: "quiz-tag" }, tags.join(", ")) : null);
}

/** @param {Question} question @param {Session} session @param {Choice} picked @param {number} option @param {Steps} steps */
function press(question, session, picked, option, steps) {
  if (question.right.length > 1) {
    steps.choose(picked.includes(option) ? picked.filter((i) => i !== option) : [...picked, option].sort((a, b) => a - b));
  } else if (session.mode === "tonight") steps.choose([option]);
  else steps.commit([option]);
}

/** @param {Parameters<typeof questionScreen>[0]} what */
function feedback({ question, session, index, pictures, page, canMove, steps }) {
  const live = el("div", { class: "quiz-feedback", role: "status" });
  if (!session.shown) return live;
  const choice = session.answers[currentId(session)];
  const right = isRight(question, choice);
  const drawn = pictures[question.answer ?? ""] ? pictureOf(pictures[question.answer ?? ""]) : null;
  const then = question.then;
  const place = el("div", { class: "motion quiz-motion" });
  if (choice) live.append(el("p", { class: right ? "quiz-verdict is-right" : "quiz-verdict is-wrong" }, right ? WORDS.right : WORDS.wrong));
  if (choice && question.kind === "place") live.append(el("p", {}, WORDS.away(placeError(question, choice))));
  if (!right && question.options.length) live.append(el("p", {}, WORDS.rightIs(question.right.map((i) => question.options[i]).join(" / "))));
  if (!right && question.kind === "place") live.append(el("p", {}, WORDS.rightIs(`the ${nearest(index, question.at ?? [0, 0])}`)));
  if (question.why) live.append(el("p", { class: "quiz-why" }, question.why));
  if (drawn) live.append(el("figure", { class: "picture quiz-picture" }, drawn));
  if (then && canMove) live.append(button(WORDS.moveAfter, () => steps.move(place, then), { class: "button-plain quiz-small" }), place);
  if (page) live.append(el("p", {}, el("a", { href: question.moment ? `${page}#${question.moment}` : page }, WORDS.inPlay)));
  return live;
}

/** @param {Parameters<typeof questionScreen>[0]} what */
function footer({ question, session, picked, steps }) {
  const last = session.at + 1 >= session.ids.length;
  const onward = last ? WORDS.finish : WORDS.next;
  const confirm = question.kind === "place" || question.right.length > 1;
  const buttons = [];
  if (session.mode === "walk" && !session.shown) buttons.push(button(WORDS.tellMe, steps.reveal, { class: "button-plain" }));
  if (session.mode === "tonight") {
    buttons.push(button(onward, steps.confirm, { disabled: picked.length === 0, class: "quiz-next" }));
  } else if (session.shown) buttons.push(button(onward, steps.next, { class: "quiz-next" }));
  else if (confirm) buttons.push(button(WORDS.check, steps.confirm, { disabled: picked.length === 0, class: "quiz-next" }));
  return el("div", { class: "quiz-foot" }, ...buttons);
}
