// @ts-check
/** The plain files of the site, kept under the version they belong to, so that the locked page opens without a signal. */

const NEEDED = ["", "_v/start.js", "_v/client.js"];
const WELCOME = ["_v/app.webmanifest", "_v/icon.svg", "_v/icon-180.png", "_v/icon-512.png"];

/** @param {string} base path of the site @param {string} version of the plain files */
export function openPlainFiles(base, version) {
  const prefix = "secondside:" + base + ":shell:";
  const request = (/** @type {string} */ path) => new Request(base + path, { cache: "reload" });

  /** @param {string} path */
  async function file(path) {
    const kept = await caches.open(prefix + version).then((cache) => cache.match(base + path)).catch(() => undefined);
    return kept || fetch(base + path);
  }

  return {
    file,
    page: () => file("").catch(() => new Response("", { status: 503 })),
    has: (/** @type {string} */ path) => NEEDED.includes(path) || WELCOME.includes(path),
    async keep() {
      const cache = await caches.open(prefix + version);
      await cache.addAll(NEEDED.map(request));
      await Promise.all(WELCOME.map((path) => cache.add(request(path)).catch(() => null)));
    },
    async dropOlder() {
      for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== prefix + version) await caches.delete(name);
    },
  };
}
