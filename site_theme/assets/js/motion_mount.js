// @ts-check
/** Puts the motion into its place on a page: loads the data, builds the controls, runs the frames. */
import * as steer from "./motion_player.js";
import { decode } from "./motion_track.js";
import { MotionView, floorOf } from "./motion_view.js";
import { MotionControls } from "./motion_controls.js";
import { WORDS } from "./motion_words.js";

/** @typedef {import("./motion_player.js").Steering} Steering */

/** @type {Map<string, Promise<import("./motion_track.js").Motion>>} */
const loaded = new Map();

/** The motion at an address, fetched once. @param {string} src */
export function load(src) {
  const known = loaded.get(src);
  if (known) return known;
  const coming = fetch(src).then((answer) => {
    if (!answer.ok) throw new Error(`${answer.status}`);
    return answer.json();
  }).then(decode);
  loaded.set(src, coming);
  coming.catch(() => loaded.delete(src));
  return coming;
}

/**
 * Mounts on `<div class="motion" data-src="...json">`. `wish` narrows it to a clip.
 * @param {HTMLElement} place
 * @param {{branch?: string, from?: number, to?: number, plain?: boolean}} [wish] plain: no choices, only the run
 * @returns {Promise<MotionIsland | null>}
 */
export async function mount(place, wish = {}) {
  if (place.dataset.mounted) return null;
  place.dataset.mounted = "yes";
  place.textContent = WORDS.loading;
  try {
    const motion = await load(place.dataset.src ?? "");
    return new MotionIsland(place, motion, wish);
  } catch {
    place.textContent = WORDS.lost;
    place.setAttribute("role", "status");
    delete place.dataset.mounted;
    return null;
  }
}

export class MotionIsland {
  /**
   * @param {HTMLElement} place
   * @param {import("./motion_track.js").Motion} motion
   * @param {{branch?: string, from?: number, to?: number, plain?: boolean}} wish
   */
  constructor(place, motion, wish) {
    const quiet = window.matchMedia("(prefers-reduced-motion: reduce)");
    this.place = place;
    this.state = steer.begin(motion, { ...wish, still: quiet.matches, follow: wish.plain ? 0 : ownPosition() });
    this.controls = new MotionControls(place, (change) => this.change(change), Boolean(wish.plain));
    this.view = new MotionView(this.controls.stage, floorOf(motion));
    this.before = 0;
    this.frame = (/** @type {number} */ now) => this.onFrame(now);
    quiet.addEventListener("change", (e) => this.change((s) => ({ ...s, still: e.matches, running: false })));
    document.addEventListener("secondside:positions", (event) => {
      const own = /** @type {CustomEvent<number[]>} */ (event).detail;
      if (place.isConnected && !wish.plain) this.change((s) => ({ ...s, follow: own.length === 1 ? own[0] : 0 }));
    });
    this.show();
  }

  /** Applies a steering function. @param {(state: Steering) => Steering} how */
  change(how) {
    const was = this.state;
    this.state = how(was);
    if (this.state.running && !was.running) {
      this.before = 0;
      requestAnimationFrame(this.frame);
    }
    this.show();
  }

  show() {
    this.view.draw(this.state);
    this.controls.show(this.state);
  }

  /** @param {number} now milliseconds */
  onFrame(now) {
    if (!this.state.running || !this.place.isConnected) return;
    const gone = this.before ? Math.min(0.25, (now - this.before) / 1000) : 0;
    this.before = now;
    this.state = steer.pass(this.state, gone);
    this.view.draw(this.state);
    this.controls.tick(this.state);
    if (this.state.running) requestAnimationFrame(this.frame);
    else this.controls.show(this.state);
  }
}

/** The one position this page is read as, or 0. */
function ownPosition() {
  const own = (document.documentElement.dataset.positions ?? "").split(" ").filter(Boolean);
  return own.length === 1 ? Number(own[0]) : 0;
}
