// @ts-check
/** Where do you end up: a floor to tap, with the keyboard and by name as well. */
import { el, pictureOf } from "./quiz_dom.js";
import { WORDS } from "./quiz_words.js";

/** @typedef {import("./quiz_types.js").Index} Index */
/** @typedef {import("./quiz_types.js").Question} Question */
/** @typedef {[number, number]} Point metres in the frame of the floor */

const SVG = "http://www.w3.org/2000/svg";
const UNITS = 10; // picture units to the metre, as in the diagrams
const STEP = 0.5; // metres an arrow key moves the mark
/** @type {Record<string, Point>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/**
 * @param {{index: Index, question: Question, picture: string, chosen: Point|null, shown: boolean,
 *   choose: (at: Point) => void}} what
 * @returns {HTMLElement}
 */
export function placeField({ index, question, picture, chosen, shown, choose }) {
  const drawn = picture ? pictureOf(picture) : null;
  const turned = drawn?.querySelector("use")?.getAttribute("href")?.endsWith("-down") ?? false;
  const floor = /** @type {SVGSVGElement} */ (drawn ?? plainFloor(index));
  const k = turned ? -UNITS : UNITS;
  let at = chosen;
  const mark = ring("quiz-mark");
  const said = el("p", { class: "quiz-said", "aria-live": "polite" });
  const show = () => {
    mark.setAttribute("visibility", at ? "visible" : "hidden");
    if (at) mark.setAttribute("transform", `translate(${at[0] * k} ${at[1] * k})`);
    said.textContent = at ? WORDS.nearTo(nearest(index, at)) : "";
  };
  /** @param {Point} point */
  const take = (point) => {
    at = [Math.round(point[0] * 10) / 10, Math.round(point[1] * 10) / 10];
    show();
    choose(at);
  };
  floor.append(mark);
  if (shown && question.at) floor.append(target(question, k));
  const field = el("div", { class: "quiz-floor", role: "application", tabindex: shown ? null : 0, "aria-label": WORDS.floor }, floor);
  if (!shown) {
    field.addEventListener("pointerdown", (event) => take(pointOf(floor, event, k)));
    field.addEventListener("keydown", (event) => {
      const arrow = ARROWS[event.key];
      if (!arrow) return;
      event.preventDefault();
      const [x, y] = at ?? [0, index.floor.freeThrow];
      const [dx, dy] = turned ? arrow : [arrow[0], -arrow[1]];
      take([clamp(x + dx * STEP * (turned ? -1 : 1), -index.floor.halfWidth, index.floor.halfWidth), clamp(y + dy * STEP, 0, index.floor.depth)]);
    });
  }
  show();
  return el("div", { class: "quiz-place" }, field, said, !shown && byName(index, take));
}

/** @param {Index} index @param {(at: Point) => void} take */
function byName(index, take) {
  const list = /** @type {HTMLSelectElement} */ (el("select", {
    class: "quiz-select", change: () => { if (list.value !== "") take(index.spots[Number(list.value)].at); },
  }, el("option", { value: "" }, WORDS.noPlace), ...index.spots.map((s, i) => el("option", { value: i }, s.name))));
  return el("label", { class: "quiz-label" }, WORDS.byName, list);
}

/** @param {SVGSVGElement} floor @param {PointerEvent} event @param {number} k @returns {Point} */
function pointOf(floor, event, k) {
  const matrix = floor.getScreenCTM();
  if (!matrix) return [0, 0];
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  return [point.x / k, point.y / k];
}

/** @param {Index} index @param {Point} at */
export function nearest(index, at) {
  const far = (/** @type {Point} */ p) => Math.hypot(p[0] - at[0], p[1] - at[1]);
  return [...index.spots].sort((a, b) => far(a.at) - far(b.at))[0]?.name ?? "floor";
}

/** @param {string} name */
function ring(name) {
  const group = document.createElementNS(SVG, "g");
  group.setAttribute("class", name);
  for (const r of ["7", "1.6"]) {
    const circle = document.createElementNS(SVG, "circle");
    circle.setAttribute("r", r);
    group.append(circle);
  }
  return group;
}

/** The right place with the distance that still counts. @param {Question} question @param {number} k */
function target(question, k) {
  const [x, y] = question.at ?? [0, 0];
  const group = ring("quiz-target");
  group.setAttribute("transform", `translate(${x * k} ${y * k})`);
  group.firstElementChild?.setAttribute("r", String((question.within ?? 1) * UNITS));
  return group;
}

/** Half a floor of lines, for a book whose pictures have not loaded. @param {Index} index */
function plainFloor(index) {
  const f = index.floor;
  const svg = document.createElementNS(SVG, "svg");
  const [w, d] = [f.halfWidth * UNITS, f.depth * UNITS];
  svg.setAttribute("viewBox", `${-w - 5} -5 ${2 * w + 10} ${d + 10}`);
  svg.setAttribute("class", "diagram quiz-plain");
  const [lane, line, corner, join, arc, rim] = [f.halfLane, f.freeThrow, f.corner, f.join, f.arc, f.rim].map((m) => m * UNITS);
  const path = document.createElementNS(SVG, "path");
  path.setAttribute("d", `M${-w} ${d}V0H${w}V${d}ZM${-lane} 0V${line}H${lane}V0M${-corner} 0V${join}A${arc} ${arc} 0 0 0 ${corner} ${join}V0M0 ${rim - 2.3}a2.3 2.3 0 1 0 .01 0`);
  svg.append(path);
  return svg;
}

/** @param {number} x @param {number} low @param {number} high */
function clamp(x, low, high) {
  return Math.min(high, Math.max(low, x));
}
