// @ts-check
/** Shows a page from one position: marks his lines, hides the others' jobs, tells the motion. */
import { ownPositions, setOwnPositions } from "./phone.js";

/** @param {Document} page */
export function mountPosition(page) {
  for (const group of page.querySelectorAll("[data-choose-position]")) {
    group.addEventListener("click", (event) => {
      const button = event.target instanceof Element ? event.target.closest("button") : null;
      if (!button) return;
      const chosen = Number(button.dataset.position);
      setOwnPositions(chosen ? [chosen] : []);
      show(page);
    });
  }
  show(page);
}

/** @param {Document} page */
function show(page) {
  const own = ownPositions();
  page.documentElement.dataset.positions = own.join(" ");
  for (const button of page.querySelectorAll("[data-choose-position] button")) {
    const position = Number(/** @type {HTMLElement} */ (button).dataset.position);
    button.setAttribute("aria-pressed", String(position ? own.includes(position) : own.length === 0));
  }
  for (const line of page.querySelectorAll(".jobs > .job, .tile")) {
    const mine = own.includes(Number(/** @type {HTMLElement} */ (line).dataset.position));
    line.classList.toggle("is-own", mine);
    line.classList.toggle("is-other", own.length > 0 && !mine);
  }
  page.dispatchEvent(new CustomEvent("secondside:positions", { detail: own }));
}
