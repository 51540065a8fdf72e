// @ts-check
/** A file of the host, whole or not at all, and not waited for without end. */

const FETCH_PATIENCE = 20000; // ms: some browsers end a worker that waits much longer
/** The browser's own, also where a page that reads once answers `fetch` itself. */
export const plainFetch = self.fetch.bind(self);

/** @param {string} url @param {RequestInit} options @returns {Promise<Uint8Array>} */
export async function fetched(url, options) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), FETCH_PATIENCE);
  try {
    const response = await plainFetch(url, { ...options, signal: stop.signal, credentials: "same-origin" });
    if (!response.ok) throw new Error(String(response.status));
    return new Uint8Array(await response.arrayBuffer());
  } finally {
    clearTimeout(timer);
  }
}

/** @param {unknown} problem */
export function isMissing(problem) {
  return problem instanceof Error && problem.message === "404";
}
