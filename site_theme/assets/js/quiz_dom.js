// @ts-check
/** Small tools to build the quiz's elements. */

/**
 * @param {string} tag
 * @param {Record<string, any>} [set] attributes; functions become listeners of that name, `false` and null are left out
 * @param {...(Node|string|null|undefined|false)} inside
 * @returns {HTMLElement}
 */
export function el(tag, set = {}, ...inside) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(set)) {
    if (typeof value === "function") made.addEventListener(name, value);
    else if (name.startsWith("aria-")) made.setAttribute(name, String(value));
    else if (value !== null && value !== undefined && value !== false) made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...inside.filter((x) => x !== null && x !== undefined && x !== false).map((x) => /** @type {Node|string} */ (x)));
  return made;
}

/** @param {string} text @param {() => void} press @param {Record<string, any>} [set] */
export function button(text, press, set = {}) {
  const { class: more = "", ...rest } = set;
  return el("button", { type: "button", class: `button ${more}`.trim(), click: press, ...rest }, text);
}

/**
 * A picture of the book as an element; null when it is not well formed.
 * @param {string} svg
 * @returns {Element|null}
 */
export function pictureOf(svg) {
  const text = svg.includes("xmlns=") ? svg : svg.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"');
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  return parsed.nodeName === "svg" ? document.importNode(parsed, true) : null;
}
