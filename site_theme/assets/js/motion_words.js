// @ts-check
/** Every word the motion shows, in one place. */

export const WORDS = Object.freeze({
  title: "In motion",
  run: "Run it",
  hold: "Hold",
  again: "Run it again",
  next: "Next picture",
  back: "Picture before",
  phaseBack: "Phase before",
  phaseOn: "Next phase",
  half: "Half speed",
  full: "Full speed",
  second: "Second of the play",
  watchOne: "Watch one position",
  all: "All",
  side: "Other side",
  defence: "Show the defence",
  cast: "Who runs it",
  ways: "How it runs",
  lost: "The motion did not load. The pictures below show the same play.",
  loading: "The motion is loading.",
  stage: "The play on the floor. Space runs or holds it, left and right go phase by phase.",
});
