// @ts-check
/** Which game comes next: a question of the reader's own calendar, so no build can answer it. */

/** @typedef {{id: string, day: string}} Game day: YYYY-MM-DD, or empty where the book says none */
/** @typedef {Game & {element: HTMLElement}} MarkedGame */

/** @param {Date} [now] @returns {string} the day where the reader is, YYYY-MM-DD */
export function today(now = new Date()) {
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/**
 * @template {Game} G
 * @param {readonly G[]} games the latest first
 * @param {string} day
 * @returns {G | undefined} the first one not over yet, else the last that was played
 */
export function nextGame(games, day) {
  return games.filter((g) => g.day >= day).at(-1) ?? games[0];
}

/** @param {string} gameDay @param {string} day @returns {string} how the game is called that day */
export function whenWord(gameDay, day) {
  if (!gameDay || gameDay > day) return "Next game";
  return gameDay === day ? "Tonight" : "Last game";
}

/** @param {ParentNode} place @returns {MarkedGame[]} the games marked below it, in order */
export function gamesOf(place) {
  return [.../** @type {NodeListOf<HTMLElement>} */ (place.querySelectorAll("[data-day]"))].map((element) => ({
    id: element.dataset.game ?? "", day: element.dataset.day ?? "", element,
  }));
}

/**
 * Shows the next game on the first page, opens its plan, and tells the quiz which it is.
 * @param {Document} page
 * @param {string} [day]
 */
export function mountGames(page, day = today()) {
  showOne(gamesOf(page).filter((g) => g.element.matches("section.tonight")), day, (g, is) => (g.element.hidden = !is));
  showOne(gamesOf(page).filter((g) => g.element.matches("details.game")), day, openPlan);
  for (const place of /** @type {NodeListOf<HTMLElement>} */ (page.querySelectorAll(".quiz[data-games]"))) {
    const games = (place.dataset.games ?? "").split(",").filter(Boolean).map((g) => g.split(" ")).map(([id, at]) => ({ id, day: at ?? "" }));
    place.dataset.game = nextGame(games, day)?.id ?? "";
  }
}

/**
 * @param {MarkedGame[]} games
 * @param {string} day
 * @param {(game: MarkedGame, isNext: boolean) => void} show
 */
function showOne(games, day, show) {
  const next = nextGame(games, day);
  for (const game of games) {
    show(game, game === next);
    const word = game.element.querySelector("[data-when]");
    if (word && game === next) word.textContent = whenWord(game.day, day);
  }
}

/** @param {MarkedGame} game @param {boolean} isNext */
function openPlan({ element }, isNext) {
  const asked = location.hash === `#${element.id}`;
  if (isNext || asked) element.setAttribute("open", "");
  else element.removeAttribute("open");
  const press = /** @type {HTMLElement | null} */ (element.querySelector("[data-next-only]"));
  if (press) press.hidden = !isNext;
}
