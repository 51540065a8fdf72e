// @ts-check
/** What is folded away opens where it is asked for: by the printer, and by a link that leads into it. */

/** Wired once for all pages. */
export function mountFolds() {
  /** @type {HTMLDetailsElement[]} */
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = /** @type {HTMLDetailsElement[]} */ ([...document.querySelectorAll("details:not([open]):not([hidden])")]);
    for (const fold of opened) fold.open = true;
  });
  addEventListener("afterprint", () => {
    for (const fold of opened) fold.open = false;
    opened = [];
  });
  addEventListener("hashchange", () => openAsked(document));
}

/** @param {Document} page */
export function openAsked(page) {
  const asked = location.hash.length > 1 ? page.getElementById(location.hash.slice(1)) : null;
  if (!(asked instanceof HTMLDetailsElement) || asked.open) return;
  asked.open = true;
  asked.scrollIntoView();
}
