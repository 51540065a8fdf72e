// @ts-check
/** Mounts the quiz on `<div class="quiz" data-index="...json" data-game="...">`. */
import { Quiz } from "./quiz_app.js";
import { openBanks } from "./quiz_banks.js";
import { browserShelf, openStore } from "./quiz_store.js";
import { ownPositions, ROOT, setOwnPositions } from "./phone.js";
import { seat } from "./seat.js";

/** @typedef {import("./quiz_types.js").Clip} Clip */

/** @param {HTMLElement} place */
export async function mount(place) {
  if (place.dataset.mounted) return;
  place.dataset.mounted = "yes";
  const me = await seat();
  const who = me?.who || "me";
  const own = ownPositions();
  const quiz = new Quiz(place, {
    banks: openBanks(place.dataset.index ?? ""),
    store: openStore(browserShelf(), who, ROOT.pathname),
    seat: { who, positions: own.length ? own : me?.positions ?? [] },
    game: place.dataset.game ?? "",
    now: () => Date.now(),
    keepPositions: setOwnPositions,
    move,
  });
  await quiz.open();
}

/** Runs a clip in the page's own motion. @param {HTMLElement} place @param {string} src @param {Clip} clip */
async function move(place, src, clip) {
  const [{ mount: mountMotion }, steer] = await Promise.all([import("./motion_mount.js"), import("./motion_player.js")]);
  place.dataset.src = src;
  const island = await mountMotion(place, { branch: clip.branch, from: clip.from, to: clip.to, plain: true });
  if (!island) return;
  const version = clip.version ?? "";
  const cast = castOf(island.state.motion.casts, version);
  island.change((s) => steer.showDefence(steer.changeCast(version.startsWith("m") ? steer.changeSide(s) : s, cast)));
  island.change(steer.runOrHold);
}

/** Which cast runs it as `2-3` (2 does 3's lines) says. @param {readonly {shown: number[]}[]} casts @param {string} version */
function castOf(casts, version) {
  const [player, role] = version.replace("m", "").split("-").map(Number);
  const found = role ? casts.findIndex((c) => c.shown[role - 1] === player) : 0;
  return Math.max(0, found);
}
