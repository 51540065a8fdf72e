// @ts-check
/** How the service worker answers: headers, parts of files, refusals. Pure. */

const CSP =
  "default-src 'self' data: blob:; script-src 'self' 'unsafe-inline' blob:; style-src 'self' 'unsafe-inline'; connect-src 'self'; " +
  "object-src 'none'; base-uri 'self'; form-action 'none'; frame-ancestors 'self'";

/** @param {Uint8Array} content @param {string} media @param {number} status @param {string | null} range the request's Range header */
export function respond(content, media, status, range) {
  const asked = /^bytes=(\d+)-(\d*)$/.exec(range || "");
  if (!asked) return new Response(content, { status, headers: headers(media) });
  const from = Number(asked[1]);
  const to = asked[2] ? Math.min(Number(asked[2]), content.length - 1) : content.length - 1;
  if (from > to) return new Response("", { status: 416, headers: { "Content-Range": `bytes */${content.length}` } });
  const part = { ...headers(media), "Content-Range": `bytes ${from}-${to}/${content.length}`, "Accept-Ranges": "bytes" };
  return new Response(content.slice(from, to + 1), { status: 206, headers: part });
}

/** @param {number} status never kept by a browser: the next try may be answered */
export function refused(status) {
  return new Response("", { status, headers: headers("text/plain") });
}

/** @param {unknown} value */
export function json(value) {
  return new Response(JSON.stringify(value), { headers: headers("application/json") });
}

/**
 * Scripts and looks, which are the same for every book of a version, may stay in a tab's memory between two pages: a third of a
 * page load. Everything else is asked for each time.
 * @param {string} media @returns {Record<string, string>}
 */
function headers(media) {
  const all = { "Content-Type": media, "Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin" };
  if (/^text\/css|javascript|^font/.test(media)) return { ...all, "Cache-Control": "max-age=30" };
  return media.startsWith("text/html") ? { ...all, "Content-Security-Policy": CSP } : all;
}

/**
 * The site map is written for the address given at build time; pages compare it with where they really lie.
 * @param {Uint8Array} content @param {string} root address of the site's folder
 */
export function rebased(content, root) {
  const text = new TextDecoder().decode(content);
  const addresses = [...text.matchAll(/<loc>\s*([^<\s]*)/g)].map((m) => m[1]);
  if (!addresses.length) return content;
  const written = addresses.reduce((short, a) => (a.length < short.length ? a : short));
  return new TextEncoder().encode(text.replaceAll("<loc>" + written, "<loc>" + root));
}

/**
 * The page for unknown addresses stands at any depth; the reader's script in it is named from the site's folder.
 * @param {Uint8Array} content @param {string} base path of the site
 */
export function atAnyDepth(content, base) {
  return new TextEncoder().encode(new TextDecoder().decode(content).replaceAll('="_v/', `="${base}_v/`));
}
