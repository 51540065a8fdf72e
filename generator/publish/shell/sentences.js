// @ts-check
/** What the locked page says. One plain sentence for each thing that can go wrong, and what to do about it. */

export const SENTENCES = {
  ask: "The pages here are locked. Your card has the code that opens them.",
  opening: "Opening. This takes a moment.",
  letters: "That is not a whole code yet. It has sixteen letters and digits in four groups.",
  code: "This code does not open the book. Compare it with your card, letter by letter. If you got a newer card, use that one.",
  forged: "The files here were not published by your coach. Do not go on, and tell your coach.",
  unreachable: "The site cannot be reached. Check the connection and try again.",
  none: "There is no book at this address. Ask your coach for the right one.",
  out: "This code no longer opens the book. Ask your coach for a new card.",
  notKept: "This page is not on this phone yet and the site cannot be reached. Try again when you have a signal.",
  insecure: "This address is not safe for a locked book: it begins with http. Open it with https.",
  old: "This browser is too old to open the book. Update it, or use another one.",
  readOnce: "This window cannot keep the book. You can read it once: the code is asked again each time, and nothing works without a signal. To keep it, open this address in your phone's own browser.",
  forgets: "This window keeps nothing, as private windows do. The code will be asked again when it is closed.",
  full: "This phone is nearly full. Pages open while you have a signal, but not all of them are kept for later.",
};

/** @type {Record<string, string>} the page's heading where it is not simply locked */
export const HEADINGS = { notKept: "No signal", insecure: "Not a safe address", old: "Browser too old", out: "Shut", forgets: "Open for now" };
