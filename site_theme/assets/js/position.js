// @ts-check
/** Shows a page from one position: marks his lines, hides the others' jobs, tells the motion. Looking at another position
 * lasts for this visit and never changes who holds the phone. */
import { lookAs, shownPositions } from "./phone.js";

/** @param {Document} page */
export function mountPosition(page) {
  for (const group of page.querySelectorAll("[data-choose-position]")) {
    group.addEventListener("click", (event) => {
      const button = event.target instanceof Element ? event.target.closest("button") : null;
      if (!button) return;
      const chosen = Number(button.dataset.position);
      lookAs(chosen ? [chosen] : []);
      show(page);
    });
  }
  show(page);
}

/** @param {Document} page */
function show(page) {
  const shown = shownPositions();
  page.documentElement.dataset.positions = shown.join(" ");
  for (const button of page.querySelectorAll("[data-choose-position] button")) {
    const position = Number(/** @type {HTMLElement} */ (button).dataset.position);
    button.setAttribute("aria-pressed", String(position ? shown.includes(position) : shown.length === 0));
  }
  for (const line of page.querySelectorAll(".jobs > .job, .tile")) {
    const mine = shown.includes(Number(/** @type {HTMLElement} */ (line).dataset.position));
    line.classList.toggle("is-own", mine);
    line.classList.toggle("is-other", shown.length > 0 && !mine);
  }
  page.dispatchEvent(new CustomEvent("secondside:positions", { detail: shown }));
}
