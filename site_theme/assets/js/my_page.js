// @ts-check
/** My page: who holds this phone, his list of plays, and the jobs of his positions fetched from their pages. */
import { ownList, ownPositions, recall, keep, setOwnPositions } from "./phone.js";
import { mountWhich } from "./which_plays.js";

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
  const found = /** @type {Element[]} */ (parts.filter(Boolean));
  const title = page.querySelector("[data-my-title]");
  if (title) title.textContent = found.length ? `Your jobs as ${own.join(" and ")}` : "Your jobs";
  const missing = parts.length > found.length ? "Not all of your jobs could be loaded. Try again with a signal." : "";
  const note = page.createElement("p");
  note.textContent = own.length ? missing : "Tap the positions you play, and your jobs in every play stand here.";
  place.replaceChildren(...(note.textContent ? [note] : []), ...together(found));
  mountWhich(page);
}

/**
 * The same play once, with a part for each position.
 * @param {Element[]} parts jobs of one position each, the same plays in each
 * @returns {Element[]}
 */
function together(parts) {
  const [first, ...others] = parts;
  if (!first || !others.length) return parts;
  for (const part of parts) for (const own of part.querySelectorAll(".own-part")) own.prepend(as(part, own));
  for (const play of first.querySelectorAll("[data-play]")) {
    const same = others.map((o) => o.querySelector(`[data-play="${/** @type {HTMLElement} */ (play).dataset.play}"] .own-part`));
    play.querySelector(".own-part")?.after(...same.filter((s) => s !== null));
  }
  return [first];
}

/** @param {Element} part @param {Element} own @returns {Element} */
function as(part, own) {
  const title = own.ownerDocument.createElement("h5");
  title.textContent = `As ${/** @type {HTMLElement} */ (part).dataset.position}`;
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
