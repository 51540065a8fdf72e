// @ts-check
// Stands inside the locked page: takes a code out of the address before anything else, then finds where the site begins.
(() => {
  const card = /^#c=([^&]*)/.exec(location.hash);
  if (card) history.replaceState(null, "", location.pathname + location.search);
  const handed = /** @type {any} */ (window);
  handed.secondside = { code: card ? spelt(card[1]) : "" };
  if (location.protocol === "file:") {
    document.documentElement.dataset.state = "file";
    return;
  }
  /** Links pass through other apps, which break them. @param {string} code */
  function spelt(code) {
    try {
      return decodeURIComponent(code);
    } catch {
      return code;
    }
  }
  /** Hosts show this page at any depth when a path is unknown, so each folder above is tried. @param {string} folder */
  const start = async (folder) => {
    try {
      await import(/* @vite-ignore */ location.origin + folder + "_v/start.js");
    } catch {
      const above = folder.replace(/[^/]*\/$/, "");
      if (above && above !== folder) await start(above);
      else document.documentElement.dataset.state = "unreachable";
    }
  };
  start(location.pathname.replace(/[^/]*$/, "").replace(/\/{2,}/g, "/")); // two slashes would name another host
})();
