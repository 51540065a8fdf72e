// @ts-check
/** What is folded away on the phone is there on paper. */

/** Opens folds for the printer and closes them after. */
export function mountPaper() {
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
}
