// @ts-check
/** My page: who holds this phone, his list of plays, and the jobs of his positions fetched from their pages. */
import { ownList, ownPositions, recall, keep, setOwnPositions } from "./phone.js";

/** @param {Document} page */
export async function mountMyPage(page) {
  const who = page.querySelector("[data-my-page]");
  if (!who) return;
  const person = /** @type {HTMLSelectElement | null} */ (who.querySelector("[data-person]"));
  const buttons = /** @type {HTMLButtonElement[]} */ ([...who.querySelectorAll("[data-own-positions] button")]);
  if (person) {
    person.value = String(recall("person") ?? "");
    if (person.selectedIndex < 0) person.value = "";
    person.addEventListener("change", () => {
      keep("person", person.value);
      const told = person.selectedOptions[0]?.dataset.positions ?? "";
      if (told) setOwnPositions(told.split(" ").map(Number));
      show(page, buttons);
    });
  }
  for (const button of buttons) {
    button.addEventListener("click", () => {
      const position = Number(button.dataset.position);
      const own = ownPositions();
      setOwnPositions(own.includes(position) ? own.filter((n) => n !== position) : [...own, position]);
      show(page, buttons);
    });
  }
  showList(page);
  await show(page, buttons);
}

/** @param {Document} page */
function showList(page) {
  const section = /** @type {HTMLElement | null} */ (page.querySelector("[data-my-list]"));
  if (!section) return;
  const list = ownList();
  for (const line of section.querySelectorAll("[data-play]")) {
    const play = /** @type {HTMLElement} */ (line);
    play.hidden = !list.includes(play.dataset.play ?? "");
  }
  section.hidden = ![...section.querySelectorAll("[data-play]")].some((l) => !(/** @type {HTMLElement} */ (l).hidden));
}

/**
 * @param {Document} page
 * @param {HTMLButtonElement[]} buttons
 */
async function show(page, buttons) {
  const own = ownPositions();
  for (const button of buttons) button.setAttribute("aria-pressed", String(own.includes(Number(button.dataset.position))));
  const place = page.querySelector("[data-my-jobs]");
  if (!place) return;
  const chosen = buttons.filter((b) => own.includes(Number(b.dataset.position)));
  const parts = await Promise.all(chosen.map((b) => jobsOf(b.dataset.page ?? "")));
  if (ownPositions().join() !== own.join()) return; // a later tap is already on its way
  place.replaceChildren(...parts.flatMap((part, at) => (part ? [heading(page, chosen[at]), part] : [])));
}

/**
 * @param {Document} page
 * @param {HTMLButtonElement} button
 */
function heading(page, button) {
  const title = page.createElement("h2");
  title.textContent = `Your jobs as ${button.dataset.position}`;
  return title;
}

/**
 * @param {string} address of a position's page
 * @returns {Promise<Element | null>}
 */
async function jobsOf(address) {
  try {
    const answer = await fetch(address);
    if (!answer.ok) return null;
    const other = new DOMParser().parseFromString(await answer.text(), "text/html");
    const jobs = other.querySelector(".position-jobs");
    for (const title of jobs?.querySelectorAll("h2, h3") ?? []) lower(title);
    return jobs ? document.importNode(jobs, true) : null;
  } catch {
    return null;
  }
}

/**
 * Headings go one step down, for they now stand below a heading of this page.
 * @param {Element} title
 */
function lower(title) {
  const lowered = title.ownerDocument.createElement(title.tagName === "H2" ? "h3" : "h4");
  lowered.append(...title.childNodes);
  title.replaceWith(lowered);
}
