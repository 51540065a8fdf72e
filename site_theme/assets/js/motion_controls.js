// @ts-check
/** The controls round the floor: words on buttons, a slide for the second, rows of choices. Builds the page's part. */
import * as steer from "./motion_player.js";
import { WORDS } from "./motion_words.js";

/**
 * @typedef {import("./motion_player.js").Steering} Steering
 * @typedef {(change: (state: Steering) => Steering) => void} Change
 */

const DRAG = 10; // pixels before a touch counts as a drag, not a tap

export class MotionControls {
  /** @param {HTMLElement} place @param {Change} change @param {boolean} plain */
  constructor(place, change, plain) {
    this.change = change;
    this.plain = plain;
    this.stage = make("div", "motion-stage");
    this.stage.tabIndex = 0;
    this.stage.setAttribute("role", "group");
    this.stage.setAttribute("aria-label", WORDS.stage);
    this.now = make("p", "motion-now");
    this.slide = /** @type {HTMLInputElement} */ (make("input", "motion-slide"));
    this.slide.type = "range";
    this.slide.step = "0.1";
    this.slide.setAttribute("aria-label", WORDS.second);
    this.slide.addEventListener("input", () => change((s) => steer.goTo(s, Number(this.slide.value))));
    this.run = this.button(WORDS.run, (s) => steer.runOrHold(s), "motion-run");
    this.back = this.button(WORDS.phaseBack, (s) => (s.still ? steer.previousStop(s) : steer.phaseStep(s, -1)));
    this.on = this.button(WORDS.phaseOn, (s) => steer.phaseStep(s, 1));
    this.speed = this.button(WORDS.half, steer.changeSpeed, "motion-toggle");
    this.side = this.button(WORDS.side, steer.changeSide, "motion-toggle");
    this.defence = this.button(WORDS.defence, steer.showDefence, "motion-toggle");
    this.positions = [1, 2, 3, 4, 5, 0].map((n) => this.button(n ? String(n) : WORDS.all, (s) => steer.follow(s, n)));
    this.casts = row("motion-row", WORDS.cast, []);
    this.reads = make("div", "motion-reads");
    this.said = make("p", "motion-said");
    this.said.setAttribute("aria-live", "polite");
    this.spoken = "";
    this.lined = "";
    const rows = [row("motion-keys", "", [this.back, this.run, this.on])];
    if (!plain) {
      rows.push(this.reads);
      rows.push(row("motion-row motion-positions", WORDS.watchOne, this.positions));
      rows.push(row("motion-row", WORDS.ways, [this.speed, this.side, this.defence]), this.casts);
    }
    place.replaceChildren(this.stage, this.now, this.slide, ...rows, this.said);
    place.setAttribute("role", "group");
    place.setAttribute("aria-label", WORDS.title);
    this.listen();
  }

  /** @param {string} word @param {(state: Steering) => Steering} how @param {string} [look] */
  button(word, how, look = "") {
    const made = /** @type {HTMLButtonElement} */ (make("button", `motion-button ${look}`.trim()));
    made.type = "button";
    made.textContent = word;
    made.addEventListener("click", () => this.change(how));
    return made;
  }

  listen() {
    this.stage.addEventListener("keydown", (event) => {
      const how = KEYS[event.key];
      if (!how) return;
      event.preventDefault();
      this.change(how);
    });
    let from = /** @type {{x: number, value: number, moved: boolean} | null} */ (null);
    this.stage.addEventListener("pointerdown", (event) => {
      from = { x: event.clientX, value: Number(this.slide.value), moved: false };
    });
    this.stage.addEventListener("pointermove", (event) => {
      if (!from || (!from.moved && Math.abs(event.clientX - from.x) < DRAG)) return;
      from.moved = true;
      const whole = Number(this.slide.max) - Number(this.slide.min);
      const t = from.value + ((event.clientX - from.x) / this.stage.clientWidth) * whole;
      this.change((s) => steer.goTo({ ...s, running: false }, t));
    });
    this.stage.addEventListener("pointerup", () => {
      if (from && !from.moved) this.change(steer.runOrHold);
      from = null;
    });
    this.stage.addEventListener("pointercancel", () => {
      from = null;
    });
  }

  /** Everything that a choice may have changed. @param {Steering} state */
  show(state) {
    this.slide.min = String(state.from);
    this.slide.max = String(state.to);
    const atEnd = state.t >= state.to - 1e-6;
    if (state.still) {
      this.run.textContent = WORDS.next;
      this.back.textContent = WORDS.back;
    } else {
      this.run.textContent = state.running ? WORDS.hold : atEnd ? WORDS.again : WORDS.run;
      this.back.textContent = WORDS.phaseBack;
    }
    this.speed.hidden = state.still;
    press(this.speed, state.speed === 0.5);
    press(this.side, state.otherSide);
    press(this.defence, state.defence);
    this.defence.hidden = !steer.track(state).defence;
    this.positions.forEach((button, i) => press(button, state.follow === (i + 1) % 6));
    if (!this.plain) this.showChoices(state);
    this.tick(state);
    this.say(state);
  }

  /** What every frame changes. @param {Steering} state */
  tick(state) {
    this.slide.value = String(state.t);
    const phase = steer.phaseNow(state);
    const shown = steer.track(state);
    const lined = `${state.branch} ${phase}`;
    if (lined === this.lined) return;
    this.lined = lined;
    const name = make("b", "");
    name.textContent = shown.phases[phase].name;
    const lines = this.plain ? [] : [make("span", "motion-lines")]; // a clip may be a question: its lines would be the answer
    if (lines[0]) lines[0].textContent = shown.phases[phase].lines.join("; ");
    this.now.replaceChildren(`${phase + 1} of ${shown.phases.length} `, name, ...lines);
    this.slide.setAttribute("aria-valuetext", `${name.textContent}, ${halves(state.t)} s`);
    if (!state.running) return;
    this.say(state);
  }

  /** @param {Steering} state */
  say(state) {
    const words = steer.saying(state);
    if (words === this.spoken) return;
    this.spoken = words;
    this.said.textContent = words;
  }

  /** Rows that depend on the play: who runs it, and the answers at each read. @param {Steering} state */
  showChoices(state) {
    const casts = state.motion.casts;
    this.casts.hidden = casts.length < 2;
    this.casts.replaceChildren(caption(WORDS.cast), ...casts.map((cast, i) => {
      const made = this.button(cast.name, (s) => steer.changeCast(s, i));
      press(made, i === state.cast);
      return made;
    }));
    const focused = this.reads.contains(document.activeElement) ? /** @type {HTMLElement} */ (document.activeElement).dataset.choice : "";
    this.reads.replaceChildren(...steer.track(state).forks.map((fork, i) => this.read(fork, i)));
    const again = focused ? this.reads.querySelector(`[data-choice="${focused}"]`) : null;
    if (again) /** @type {HTMLElement} */ (again).focus();
  }

  /** @param {import("./motion_track.js").Fork} fork @param {number} index */
  read(fork, index) {
    const answers = fork.answers.map((answer, k) => {
      const made = this.button(answer.name, (s) => steer.take(s, index, k), "motion-answer");
      made.dataset.choice = `${index}-${k}`;
      press(made, k === fork.taken);
      return made;
    });
    return row("motion-row motion-read", fork.name, answers);
  }
}

/** @type {Record<string, (state: Steering) => Steering>} */
const KEYS = {
  " ": steer.runOrHold,
  Enter: steer.runOrHold,
  ArrowRight: (s) => (s.still ? steer.nextStop(s) : steer.phaseStep(s, 1)),
  ArrowLeft: (s) => (s.still ? steer.previousStop(s) : steer.phaseStep(s, -1)),
  Home: (s) => steer.goTo(s, s.from),
  End: (s) => steer.goTo(s, s.to),
};

/** Seconds to the nearest half: nobody plays to a tenth. @param {number} t */
function halves(t) {
  return Math.round(t * 2) / 2;
}

/** @param {HTMLButtonElement} button @param {boolean} on */
function press(button, on) {
  button.setAttribute("aria-pressed", String(on));
}

/** @param {string} look @param {string} name @param {HTMLElement[]} parts */
function row(look, name, parts) {
  const made = make("div", look);
  made.setAttribute("role", "group");
  if (name) {
    made.setAttribute("aria-label", name);
    made.append(caption(name));
  }
  made.append(...parts);
  return made;
}

/** @param {string} words */
function caption(words) {
  const made = make("span", "motion-caption");
  made.textContent = words;
  return made;
}

/** @param {string} tag @param {string} look */
function make(tag, look) {
  const made = document.createElement(tag);
  if (look) made.className = look;
  return made;
}
