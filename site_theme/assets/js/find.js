// @ts-check
/** Opens and closes the search with buttons that a keyboard reaches. The head outlives page changes: wired once. */

export function mountFind() {
  const toggle = /** @type {HTMLInputElement | null} */ (document.querySelector("[data-md-toggle=search]"));
  const open = /** @type {HTMLElement | null} */ (document.querySelector("[data-find]"));
  const words = /** @type {HTMLInputElement | null} */ (document.querySelector("[data-md-component=search-query]"));
  if (!toggle || !open) return;
  open.hidden = false;
  open.addEventListener("click", () => {
    if (!toggle.checked) toggle.click();
    words?.focus();
  });
  // the theme listens to keys; words that are spoken, pasted or swiped come without any
  words?.addEventListener("input", () => words.dispatchEvent(new KeyboardEvent("keyup", { bubbles: true })));
  document.querySelector("[data-find-close]")?.addEventListener("click", () => {
    if (toggle.checked) toggle.click();
    open.focus();
  });
}
