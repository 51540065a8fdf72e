// @ts-check
/**
 * Steers the quiz: loads banks, keeps the session after every step, shows the screen that fits. The only module that
 * knows the clock, and it gets it from outside.
 */
import { AGAIN, GOOD, newCard, review } from "./fsrs.js";
import { drawPractice, drawTonight, dueQuestions, forPositions, withoutTwins } from "./quiz_draw.js";
import { el } from "./quiz_dom.js";
import { endScreen, menuScreen } from "./quiz_lists.js";
import { answer, begin, currentId, isFinished, isRight, next, restore, result, reveal } from "./quiz_session.js";
import { questionScreen } from "./quiz_view.js";
import { seeded, shuffled } from "./quiz_random.js";
import { WORDS } from "./quiz_words.js";

/** @typedef {import("./quiz_types.js").Question} Question */
/** @typedef {import("./quiz_types.js").Choice} Choice */
/** @typedef {import("./quiz_types.js").Seat} Seat */
/** @typedef {import("./quiz_session.js").Session} Session */
/**
 * @typedef {object} Outside
 * @property {import("./quiz_banks.js").Banks} banks
 * @property {import("./quiz_store.js").Store} store
 * @property {Seat} seat
 * @property {string} game id of tonight's game plan, "" for none
 * @property {() => number} now
 * @property {(list: number[]) => void} keepPositions
 * @property {((place: HTMLElement, src: string, clip: import("./quiz_types.js").Clip) => void)|null} move
 */
const FIVE = 5;
const PER_PLAY = 12;
const DUE_AT_ONCE = 20;

export class Quiz {
  /** @param {HTMLElement} place @param {Outside} outside */
  constructor(place, outside) {
    this.place = place;
    this.out = outside;
    /** @type {Session|null} */
    this.session = null;
    /** @type {Map<string, Question>} */
    this.known = new Map();
    /** @type {Choice} */
    this.picked = [];
    place.addEventListener("keydown", (event) => this.onKey(event));
  }

  async open() {
    this.say(WORDS.loading);
    try {
      this.index = await this.out.banks.index();
      this.game = this.index.tonight.find((g) => g.id === this.out.game) ?? this.index.tonight[0] ?? null;
      const saved = this.out.store.session();
      if (saved) this.session = restore(saved, await this.load(saved.plays));
      await (this.session && this.session.who === this.out.seat.who && !isFinished(this.session) ? this.showQuestion() : this.showMenu());
    } catch {
      this.say(WORDS.lost);
    }
  }

  /** @param {readonly string[]} plays */
  async load(plays) {
    for (const question of await this.out.banks.questions(plays)) this.known.set(question.id, question);
    return this.known;
  }

  // -- choosing ------------------------------------------------------------------------------------------

  async showMenu() {
    const index = /** @type {import("./quiz_types.js").Index} */ (this.index);
    const { store, seat } = this.out;
    this.show(menuScreen({
      index, game: this.game ?? null, attempts: this.game ? store.attempts(this.game.id) : 0, due: this.dueCount(),
      open: this.session && !isFinished(this.session) ? this.session : null, positions: seat.positions, kept: store.kept,
      steps: {
        goOn: () => void this.showQuestion(),
        drop: () => { this.keep(null); void this.showMenu(); },
        tonight: () => void this.start(() => this.beginTonight()),
        due: () => void this.start(() => this.beginDue()),
        five: () => void this.start(() => this.beginPractice(this.fewPlays(), FIVE)),
        play: (id, walk) => void this.start(() => (walk ? this.beginWalk(id) : this.beginPractice([id], PER_PLAY))),
        positions: (list) => { this.out.seat = { ...seat, positions: list }; this.out.keepPositions(list); void this.showMenu(); },
      },
    }));
  }

  /** From what the phone keeps alone, without loading a bank. */
  dueCount() {
    const now = this.out.now();
    const plays = (this.index?.plays ?? []).map((p) => this.out.store.cards(p.id));
    return plays.reduce((sum, cards) => sum + [...cards.values()].filter((c) => c.due <= now).length, 0);
  }

  /** @param {() => Promise<Session|null>} make */
  async start(make) {
    try {
      const session = await make();
      if (!session || session.ids.length === 0) return this.say(WORDS.empty, true);
      this.keep(session);
      await this.showQuestion();
    } catch {
      this.say(WORDS.lost, true);
    }
  }

  async beginTonight() {
    const game = this.game;
    if (!game) return null;
    const attempt = this.out.store.attempts(game.id) + 1;
    await this.load(game.plays);
    const mine = forPositions([...this.known.values()], this.out.seat.positions);
    const seed = `${this.out.seat.who}/${game.id}/${attempt}`;
    return begin({ mode: "tonight", quiz: game.id, attempt, seed, ...this.plan() }, drawTonight(mine, game, seed));
  }

  async beginDue() {
    const plays = (this.index?.plays ?? []).filter((p) => this.out.store.cards(p.id).size > 0).map((p) => p.id);
    await this.load(plays);
    const cards = this.cards(plays);
    const due = dueQuestions([...this.known.values()].filter((q) => plays.includes(q.play)), cards, this.out.now());
    return begin({ mode: "practice", quiz: "practice", attempt: 1, seed: this.seed(), ...this.plan() }, withoutTwins(due, DUE_AT_ONCE));
  }

  /** @param {string[]} plays @param {number} count */
  async beginPractice(plays, count) {
    await this.load(plays);
    const mine = forPositions([...this.known.values()].filter((q) => plays.includes(q.play)), this.out.seat.positions);
    const drawn = drawPractice(mine, this.cards(plays), this.out.now(), count, this.seed());
    return begin({ mode: "practice", quiz: "practice", attempt: 1, seed: this.seed(), ...this.plan() }, drawn);
  }

  /** Five questions need few banks: plays with something due first, then any. */
  fewPlays() {
    const now = this.out.now();
    const all = shuffled(seeded(this.seed()), (this.index?.plays ?? []).map((p) => p.id));
    const due = (/** @type {string} */ p) => [...this.out.store.cards(p).values()].some((c) => c.due <= now);
    return [...all.filter(due), ...all.filter((p) => !due(p))].slice(0, FIVE);
  }

  /** @param {string} play */
  async beginWalk(play) {
    await this.load([play]);
    const mine = forPositions([...this.known.values()].filter((q) => q.play === play), this.out.seat.positions);
    return begin({ mode: "walk", quiz: "walk", attempt: 1, seed: this.seed(), ...this.plan() }, mine);
  }

  plan() {
    return { who: this.out.seat.who, book: this.index?.book ?? "" };
  }

  seed() {
    return `${this.out.seat.who}/${this.out.now()}`;
  }

  /** @param {string[]} plays */
  cards(plays) {
    return new Map(plays.flatMap((play) => [...this.out.store.cards(play)]));
  }

  // -- asking --------------------------------------------------------------------------------------------

  async showQuestion() {
    const session = /** @type {Session} */ (this.session);
    const question = /** @type {Question} */ (this.known.get(currentId(session)));
    this.picked = session.answers[question.id] ?? [];
    const [pictures, page, motion] = await Promise.all([
      this.out.banks.pictures(question.play), this.out.banks.addressOf(question.play, "page"), this.out.banks.addressOf(question.play, "motion"),
    ]);
    this.needFloor(pictures.floor);
    this.drawn = { pictures: pictures.pictures, page, motion };
    this.paint(true);
  }

  /** @param {boolean} fresh a question not seen before: its text gets the focus */
  paint(fresh) {
    const session = /** @type {Session} */ (this.session);
    const question = /** @type {Question} */ (this.known.get(currentId(session)));
    const { pictures, page, motion } = /** @type {{pictures: Record<string, string>, page: string, motion: string}} */ (this.drawn);
    const move = this.out.move;
    this.show(questionScreen({
      session, question, index: /** @type {import("./quiz_types.js").Index} */ (this.index), pictures, picked: this.picked, page,
      canMove: Boolean(motion && move), steps: {
        choose: (choice) => this.choose(question, choice), commit: (choice) => this.commit(question, choice),
        confirm: () => this.commit(question, this.picked),
        next: () => this.step(next(session, this.out.now())), reveal: () => this.step(reveal(session)),
        stop: () => void this.showMenu(), move: (place, clip) => move?.(place, motion, clip),
      },
    }), fresh);
  }

  /** @param {Question} question @param {Choice} choice */
  choose(question, choice) {
    this.picked = choice;
    if (this.session?.mode === "tonight" && choice.length) this.keep(answer(this.session, choice));
    if (question.kind === "place") {
      const go = /** @type {HTMLButtonElement|null} */ (this.place.querySelector(".quiz-foot .quiz-next"));
      if (go) go.disabled = false;
      return;
    }
    const pressed = document.activeElement?.getAttribute("data-key");
    this.paint(false);
    /** @type {HTMLElement|null} */ (this.place.querySelector(`[data-key="${pressed}"]`))?.focus();
  }

  /** @param {Question} question @param {Choice} choice */
  commit(question, choice) {
    if (!this.session || choice.length === 0) return;
    const answered = answer(this.session, choice);
    this.picked = choice;
    if (answered.mode === "practice" && answered !== this.session) this.learn([question], answered);
    this.step(answered.mode === "tonight" ? next(answered, this.out.now()) : answered);
  }

  /** @param {Session} session */
  step(session) {
    const moved = session.at !== this.session?.at;
    this.keep(session);
    if (isFinished(session)) this.finish();
    else if (moved) void this.showQuestion();
    else {
      this.paint(false);
      /** @type {HTMLElement|null} */ (this.place.querySelector(".quiz-next"))?.focus({ preventScroll: true });
      this.place.querySelector(".quiz-options, .quiz-place")?.scrollIntoView({ block: "start" });
    }
  }

  finish() {
    const session = /** @type {Session} */ (this.session);
    const counts = session.mode === "tonight" && session.attempt === 1;
    if (session.mode === "tonight") {
      this.out.store.addResult(result(session, this.known));
      this.learn(session.ids.map((id) => /** @type {Question} */ (this.known.get(id))), session);
    }
    this.keep(null);
    void this.showEnd(session, counts);
  }

  /** @param {Session} session @param {boolean} counts */
  async showEnd(session, counts) {
    const pages = new Map(await Promise.all(session.plays.map(async (p) => /** @type {[string, string]} */ ([p, await this.out.banks.addressOf(p, "page")]))));
    const index = /** @type {import("./quiz_types.js").Index} */ (this.index);
    this.show(endScreen({ session, known: this.known, index, counts, back: () => void this.showMenu(), pageOf: (p) => pages.get(p) ?? "" }), true);
  }

  /** Answers become practice cards. @param {Question[]} questions @param {Session} session */
  learn(questions, session) {
    const now = this.out.now();
    for (const play of new Set(questions.map((q) => q.play))) {
      const cards = this.out.store.cards(play);
      const mine = questions.filter((q) => q.play === play);
      this.out.store.saveCards(play, mine.map((q) => {
        const rating = isRight(q, session.answers[q.id]) ? GOOD : AGAIN;
        return /** @type {[string, import("./fsrs.js").Card]} */ ([q.id, review(cards.get(q.id) ?? newCard(now), rating, now)]);
      }));
    }
  }

  // -- the page ------------------------------------------------------------------------------------------

  /** @param {Session|null} session */
  keep(session) {
    this.session = session;
    this.out.store.saveSession(session);
  }

  /** @param {HTMLElement} screen @param {boolean} [fresh] */
  show(screen, fresh = false) {
    this.place.replaceChildren(screen);
    if (!fresh) return;
    /** @type {HTMLElement|null} */ (screen.querySelector("h2"))?.focus({ preventScroll: true });
    this.place.scrollIntoView({ block: "start" });
  }

  /** @param {string} words @param {boolean} [above] keep the screen below */
  say(words, above = false) {
    const note = el("p", { class: "notice", role: "status" }, words);
    if (above) this.place.prepend(note);
    else this.place.replaceChildren(note);
  }

  /** The floor that pictures refer to, once a page. @param {string} svg */
  needFloor(svg) {
    const id = /id="(floor-[^"]+)"/.exec(svg)?.[1];
    if (!id || document.getElementById(id)) return;
    const holder = el("div", { hidden: false, class: "quiz-floors" });
    holder.innerHTML = svg;
    document.body.append(holder);
  }

  /** 1, 2, 3 press an option. @param {KeyboardEvent} event */
  onKey(event) {
    const target = /** @type {HTMLElement} */ (event.target);
    if (event.ctrlKey || event.metaKey || event.altKey || target.closest("select, input, textarea")) return;
    const option = /** @type {HTMLButtonElement|null} */ (/^[1-9]$/.test(event.key) ? this.place.querySelector(`[data-key="${event.key}"]`) : null);
    if (!option || option.disabled) return;
    event.preventDefault();
    option.focus();
    option.click();
  }
}
