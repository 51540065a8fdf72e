// @ts-check
/** Lists of jobs are long: picks out the plays of the next game or of one's own list, opens and closes all. */
import { gamesOf, nextGame, today, whenWord } from "./games.js";
import { keep, ownList, recall } from "./phone.js";

/** @typedef {import("./games.js").MarkedGame} MarkedGame */
/** @typedef {{name: string, label: string, plays: ReadonlySet<string> | null}} Pick plays: null are all */

/**
 * @param {Document} page
 * @param {string} [day]
 */
export function mountWhich(page, day = today()) {
  const bar = /** @type {HTMLElement | null} */ (page.querySelector("[data-which]"));
  const lines = linesOf(page);
  if (!bar) return;
  bar.hidden = lines.length === 0;
  if (bar.hidden) return;
  const game = nextGame(gamesOf(bar), day);
  const picks = picksOf(game, lines, day);
  const chosen = picks.find((p) => p.name === wanted(game, day)) ?? picks[picks.length - 1];
  const group = bar.querySelector(".choose");
  group?.replaceChildren(...picks.map((pick) => button(page, pick, lines, pick === chosen, day)));
  const opener = /** @type {HTMLButtonElement | null} */ (bar.querySelector(".which-open"));
  if (opener) opener.onclick = () => openAll(opener, lines, !isOpen(lines));
  show(lines, chosen);
  if (opener) say(opener, isOpen(lines));
}

/** @param {Document} page */
function linesOf(page) {
  return /** @type {HTMLDetailsElement[]} */ ([...page.querySelectorAll("details.position-play")]);
}

/** @param {MarkedGame | undefined} game @param {HTMLDetailsElement[]} lines @param {string} day @returns {Pick[]} those with any play, all at the end */
function picksOf(game, lines, day) {
  const here = (/** @type {string[]} */ ids) => new Set(ids.filter((id) => lines.some((l) => l.dataset.play === id)));
  const tonight = here((game?.element.dataset.plays ?? "").split(" ").filter(Boolean));
  const own = here(ownList());
  return [
    ...(tonight.size ? [{ name: "game", label: whenWord(game?.day ?? "", day), plays: tonight }] : []),
    ...(own.size ? [{ name: "list", label: "My list", plays: own }] : []),
    { name: "all", label: "All plays", plays: null },
  ];
}

/** @param {MarkedGame | undefined} game @param {string} day @returns {string} what he chose last; before that the game, if it is still to come */
function wanted(game, day) {
  const kept = recall("which");
  if (typeof kept === "string") return kept;
  return game && game.day >= day ? "game" : "all";
}

/** @param {Document} page @param {Pick} pick @param {HTMLDetailsElement[]} lines @param {boolean} pressed @param {string} day */
function button(page, pick, lines, pressed, day) {
  const made = page.createElement("button");
  made.type = "button";
  made.dataset.pick = pick.name;
  made.setAttribute("aria-pressed", String(pressed));
  made.textContent = `${pick.label} (${pick.plays?.size ?? lines.length})`;
  made.addEventListener("click", () => {
    keep("which", pick.name);
    mountWhich(page, day);
    /** @type {HTMLElement | null} */ (page.querySelector(`[data-pick="${pick.name}"]`))?.focus();
  });
  return made;
}

/** @param {HTMLDetailsElement[]} lines @param {Pick} pick */
function show(lines, pick) {
  for (const line of lines) line.hidden = pick.plays !== null && !pick.plays.has(line.dataset.play ?? "");
  for (const line of lines) {
    const series = /** @type {HTMLElement | null} */ (line.closest(".position-series"));
    if (series) series.hidden = ![...series.querySelectorAll("details.position-play")].some((l) => !(/** @type {HTMLElement} */ (l).hidden));
  }
}

/** @param {HTMLDetailsElement[]} lines */
function isOpen(lines) {
  return lines.filter((l) => !l.hidden).every((l) => l.open);
}

/** @param {HTMLButtonElement} opener @param {HTMLDetailsElement[]} lines @param {boolean} open */
function openAll(opener, lines, open) {
  for (const line of lines) if (!line.hidden) line.open = open;
  say(opener, open);
}

/** @param {HTMLButtonElement} opener @param {boolean} open */
function say(opener, open) {
  opener.textContent = open ? "Close all" : "Open all";
  opener.setAttribute("aria-pressed", String(open));
}
