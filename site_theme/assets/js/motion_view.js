// @ts-check
/**
 * Draws a steering state as SVG. Knows the page, decides nothing: what moves is set by `transform` alone, so a frame
 * costs a handful of attribute writes and no layout.
 *
 * @typedef {import("./motion_player.js").Steering} Steering
 */
import { ballAt, defenderAt, placeAt } from "./motion_track.js";
import { numbers, track } from "./motion_player.js";

const SVG = "http://www.w3.org/2000/svg";
const UNITS = 10; // picture units to the metre, as in the diagrams
const TAIL_SECONDS = 1.2;
const TAIL_STEPS = 8;
const BALL_AWAY = 5; // units from a holder's middle to the ball

/** @typedef {{id: string, box: string, down: boolean}} Floor */

/** The floor that the motion names. @param {import("./motion_track.js").Motion} motion @returns {Floor} */
export function floorOf(motion) {
  return { id: motion.floor, box: motion.box || "-80 -5 160 115", down: motion.floor.endsWith("-down") };
}

/** Height to width from which a picture is of more than a half court, as the writer of pictures has it. */
const LONG = 1.2;

export class MotionView {
  /** @param {HTMLElement} stage @param {Floor} floor */
  constructor(stage, floor) {
    this.turn = floor.down ? -UNITS : UNITS;
    const [, , width, height] = floor.box.split(" ").map(Number);
    this.svg = element("svg", { class: `diagram motion-floor${height > LONG * width ? " long" : ""}`, viewBox: floor.box, "aria-hidden": "true" });
    for (const id of floor.id ? [floor.id, floor.id.replace("floor", "lane")] : []) this.svg.append(element("use", { href: "#" + id }));
    this.tail = element("path", { class: "tail" });
    this.steps = [1, 2, 3, 4, 5].map(() => element("path", { class: "tail step" }));
    this.marks = [1, 2, 3, 4, 5].map(() => figure("defender-mark", "X"));
    this.tokens = [1, 2, 3, 4, 5].map(() => figure("token", ""));
    this.ball = element("circle", { class: "motion-ball", r: "2.3" });
    this.svg.append(...this.steps, this.tail, ...this.marks.map((m) => m.group), ...this.tokens.map((m) => m.group), this.ball);
    stage.replaceChildren(this.svg);
    /** @type {string} */
    this.looks = "";
  }

  /** Shows the state. @param {Steering} state */
  draw(state) {
    const looks = [state.cast, state.follow, state.defence, state.still, state.branch].join(" ");
    if (looks !== this.looks) this.dress(state, looks);
    const shown = track(state);
    const side = state.otherSide ? -this.turn : this.turn;
    for (let player = 1; player <= 5; player += 1) {
      const [x, y] = placeAt(shown, player, state.t);
      move(this.tokens[player - 1].group, x * side, y * this.turn);
      if (state.defence) {
        const [dx, dy] = defenderAt(shown, player, state.t);
        move(this.marks[player - 1].group, dx * side, dy * this.turn);
      }
    }
    this.drawBall(state, side);
    if (state.follow) this.drawTail(state, side);
    if (state.still) this.drawSteps(state, side);
  }

  /** What changes only with a choice: numbers, who stands out, who is hidden. @param {Steering} state @param {string} looks */
  dress(state, looks) {
    this.looks = looks;
    const shown = numbers(state);
    for (let player = 1; player <= 5; player += 1) {
      const { group, text } = this.tokens[player - 1];
      text.textContent = String(shown[player - 1]);
      group.classList.toggle("is-own", state.follow !== 0 && shown[player - 1] === state.follow);
      group.classList.toggle("is-other", state.follow !== 0 && shown[player - 1] !== state.follow);
      const mark = this.marks[player - 1];
      mark.text.textContent = `X${shown[player - 1]}`;
      mark.group.style.display = state.defence && track(state).defence ? "" : "none";
    }
    this.tail.style.display = state.follow ? "" : "none";
    for (const step of this.steps) step.style.display = state.still ? "" : "none";
  }

  /** @param {Steering} state @param {number} side */
  drawBall(state, side) {
    const { x, y, holder } = ballAt(track(state), state.t);
    let [px, py] = [x * side, y * this.turn];
    if (holder) [px, py] = [px + BALL_AWAY * 0.8, py - BALL_AWAY * 0.62];
    move(this.ball, px, py);
    for (let player = 1; player <= 5; player += 1) {
      this.tokens[player - 1].group.classList.toggle("has-ball", holder === player);
    }
  }

  /** The last steps of the one who is followed. @param {Steering} state @param {number} side */
  drawTail(state, side) {
    const role = numbers(state).indexOf(state.follow) + 1;
    this.tail.setAttribute("d", this.way(state, role, Math.max(state.from, state.t - TAIL_SECONDS), TAIL_STEPS, side));
  }

  /** In stepped pictures: the way of each player since the picture before. @param {Steering} state @param {number} side */
  drawSteps(state, side) {
    for (let player = 1; player <= 5; player += 1) {
      this.steps[player - 1].setAttribute("d", state.since < state.t ? this.way(state, player, state.since, 14, side) : "");
    }
  }

  /** @param {Steering} state @param {number} player @param {number} since @param {number} count @param {number} side */
  way(state, player, since, count, side) {
    let data = "";
    for (let i = 0; i <= count; i += 1) {
      const [x, y] = placeAt(track(state), player, since + ((state.t - since) * i) / count);
      data += `${i ? "L" : "M"}${(x * side).toFixed(1)} ${(y * this.turn).toFixed(1)}`;
    }
    return data;
  }
}

/** @param {SVGElement} target @param {number} x @param {number} y */
function move(target, x, y) {
  target.setAttribute("transform", `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
}

/** @param {string} name @param {string} word */
function figure(name, word) {
  const group = element("g", { class: name });
  const text = element("text", {});
  text.textContent = word;
  if (name === "token") group.append(element("circle", { r: "4.8" }));
  group.append(text);
  return { group, text };
}

/** @param {string} name @param {Record<string, string>} attributes @returns {SVGElement} */
function element(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}
