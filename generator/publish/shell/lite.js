// @ts-check
/**
 * Read once: opens the book inside the page where no service worker exists. Nothing is kept; the code is asked again each time.
 * Scripts, looks and pictures become blob: addresses; links, fetch and workers are answered from the opened book.
 */
import { openBlob, sealResult } from "./core.js";
import { fetched, isMissing, plainFetch } from "./fetching.js";
import { find, openWithCode, resolved, shelvesOf, Shut } from "./book.js";

/** @typedef {import("./book.js").Shelf} Shelf */
/** @typedef {import("./book.js").Session} Session */

/**
 * @param {string} base @param {string} code @param {string} wanted inner path with query and fragment
 * @returns {Promise<string | null>} why it stayed shut
 */
export async function readOnce(base, code, wanted) {
  try {
    const boot = await fetched(`${base}_v/boot.json?${Date.now()}`, { cache: "no-store" }).catch((problem) => {
      throw new Shut(isMissing(problem) ? "none" : "unreachable");
    });
    const fetchBlob = remembered((name) => fetched(`${base}_v/b/${name}`, {}));
    const session = await openWithCode(code, new TextDecoder().decode(boot), fetchBlob);
    const book = new OpenBook(base, session, await shelvesOf(session, fetchBlob), fetchBlob);
    book.answerRequests();
    await book.show(wanted);
    return null;
  } catch (problem) {
    return problem instanceof Shut ? problem.why : "unreachable";
  }
}

/** @param {(name: string) => Promise<Uint8Array>} fetchBlob @returns {(name: string) => Promise<Uint8Array>} */
function remembered(fetchBlob) {
  /** @type {Map<string, Promise<Uint8Array>>} */
  const known = new Map();
  return (name) => {
    const found = known.get(name) || fetchBlob(name);
    known.set(name, found);
    found.catch(() => known.delete(name));
    return found;
  };
}

class OpenBook {
  /** @param {string} base @param {Session} session @param {Shelf[]} shelves @param {(name: string) => Promise<Uint8Array>} fetchBlob */
  constructor(base, session, shelves, fetchBlob) {
    this.root = location.origin + base;
    this.session = session;
    this.shelves = shelves;
    this.fetchBlob = fetchBlob;
    /** @type {Map<string, Promise<string>>} */
    this.addresses = new Map();
  }

  /** @param {string} url @returns {string | null} inner path, or null for other places */
  inner(url) {
    const plain = url.split(/[?#]/)[0];
    return plain.startsWith(this.root) ? spelt(plain.slice(this.root.length)) : null;
  }

  /** @param {string} path @returns {Promise<{content: Uint8Array, media: string} | null>} */
  async read(path) {
    const meant = resolved(this.shelves, path);
    const found = meant && find(this.shelves, meant.redirect ? meant.path + "index.html" : meant.path);
    if (!found) return null;
    return { content: await openBlob(found.keys, found.entry.blob, await this.fetchBlob(found.entry.blob)), media: found.entry.media };
  }

  /** Puts a page in place of this one. @param {string} wanted */
  async show(wanted) {
    const [path, anchor] = [wanted.split(/[?#]/)[0], wanted.split("#")[1]];
    const known = await this.read(spelt(path));
    const file = known || (await this.read("404.html"));
    if (!file) throw new Shut("unreachable");
    this.addresses.clear(); // a script that ran under its address would not run again in the next page
    const page = new DOMParser().parseFromString(new TextDecoder().decode(file.content), "text/html");
    await this.dressed(page, this.root + (known ? path : "")); // the page for unknown addresses speaks from the root
    history.replaceState(null, "", this.root + "#at/" + wanted); // not `#/`: pages take that for a link to follow
    document.open();
    document.write("<!doctype html>" + page.documentElement.outerHTML);
    document.close();
    window.addEventListener("click", (event) => this.follow(event), true);
    if (anchor) document.getElementById(anchor)?.scrollIntoView();
  }

  /** Every address in the page that the browser would fetch becomes an opened copy. @param {Document} page @param {string} at */
  async dressed(page, at) {
    const home = page.createElement("base");
    home.href = at;
    page.head.prepend(home);
    page.querySelectorAll('link[rel="manifest"]').forEach((tag) => tag.remove());
    // stays in the page as a sign that it is locked, but does not run: there is no worker to talk to
    page.querySelector('script[src$="_v/client.js"]')?.setAttribute("type", "text/plain");
    const jobs = [];
    for (const tag of page.querySelectorAll("script[src]:not([type='text/plain']), img[src], source[src], link[rel~='stylesheet'][href], link[rel~='icon'][href]")) {
      const name = tag.hasAttribute("src") ? "src" : "href";
      jobs.push(this.copied(new URL(tag.getAttribute(name) || "", at).href).then((url) => url && tag.setAttribute(name, url)));
    }
    for (const tag of page.querySelectorAll("script:not([src])")) {
      if (/json/.test(tag.getAttribute("type") || "")) continue;
      jobs.push(this.scriptAddress(tag.textContent || "", at, new Set()).then((url) => (tag.setAttribute("src", url), (tag.textContent = ""))));
    }
    await Promise.all(jobs);
  }

  /** @param {string} url @param {Set<string>} [above] scripts that wait for this one @returns {Promise<string | null>} */
  async copied(url, above = new Set()) {
    const path = this.inner(url);
    if (path === null || above.has(url)) return null;
    if (!this.addresses.has(url)) this.addresses.set(url, this.copy(path, url, above));
    return this.addresses.get(url) || null;
  }

  /** @param {string} path @param {string} url @param {Set<string>} above */
  async copy(path, url, above) {
    const file = await this.read(path);
    if (!file) return url;
    const text = () => new TextDecoder().decode(file.content);
    if (file.media.startsWith("text/javascript")) return this.scriptAddress(text(), url, new Set([...above, url]));
    if (file.media.startsWith("text/css")) return blobAddress(await this.withCopies(text(), /url\(\s*["']?([^"')]+)["']?\s*\)/g, url, new Set(), (u) => `url("${u}")`), file.media);
    return blobAddress(file.content, file.media);
  }

  /** @param {string} text @param {string} url @param {Set<string>} above */
  async scriptAddress(text, url, above) {
    const imports = /((?:\bfrom|\bimport)\s*\(?\s*)["'](\.{1,2}\/[^"']+)["']/g;
    const linked = await this.withCopies(text, imports, url, above, (u, words) => `${words}"${u}"`);
    return blobAddress(linked.replaceAll("import.meta.url", JSON.stringify(url)), "text/javascript");
  }

  /** @param {string} text @param {RegExp} pattern its last group is an address @param {string} at @param {Set<string>} above @param {(url: string, words: string) => string} write */
  async withCopies(text, pattern, at, above, write) {
    const found = [...text.matchAll(pattern)];
    const urls = await Promise.all(found.map((m) => (/^(data|blob|#)/.test(m[m.length - 1]) ? null : this.copied(new URL(m[m.length - 1], at).href, above))));
    let i = 0;
    return text.replace(pattern, (whole, words) => {
      const url = urls[i++];
      return url ? write(url, words) : whole;
    });
  }

  /** Links inside the book are opened here; others go their way. @param {MouseEvent} event */
  follow(event) {
    const link = event.target instanceof Element ? event.target.closest("a[href]") : null;
    if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey) return;
    const url = new URL(link.getAttribute("href") || "", document.baseURI).href;
    const wanted = url.startsWith(this.root + "#/") ? url.slice(this.root.length + 2) : url.slice(this.root.length);
    if (!url.startsWith(this.root)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const anchor = url.split("#")[1];
    if (anchor && url.split("#")[0] === document.baseURI.split("#")[0]) document.getElementById(anchor)?.scrollIntoView();
    else this.show(wanted).catch(() => alert("This page cannot be opened now. Check the connection."));
  }

  /** fetch, XMLHttpRequest and Worker as pages use them. */
  answerRequests() {
    const book = this;
    self.fetch = async (input, options) => {
      const url = new URL(input instanceof Request ? input.url : String(input), document.baseURI).href;
      const path = book.inner(url);
      return path === null ? plainFetch(input, options) : book.response(path, options);
    };
    const open = XMLHttpRequest.prototype.open;
    const send = XMLHttpRequest.prototype.send;
    /** @type {WeakMap<XMLHttpRequest, string>} */
    const asked = new WeakMap();
    XMLHttpRequest.prototype.open = function (/** @type {string} */ method, /** @type {string | URL} */ url) {
      asked.set(this, new URL(url, document.baseURI).href);
      open.call(this, method, url, true);
    };
    XMLHttpRequest.prototype.send = async function (/** @type {XMLHttpRequestBodyInit | null | undefined} */ body) {
      const own = await book.copied(asked.get(this) || "");
      if (own) open.call(this, "GET", own, true);
      send.call(this, body);
    };
    self.Worker = class extends Worker {
      /** @param {string | URL} url @param {WorkerOptions} [options] */
      constructor(url, options) {
        super(blobAddress(`(${waitingWorker})()`, "text/javascript"), options);
        book.copied(new URL(url, document.baseURI).href).then((own) => super.postMessage({ secondside: own }));
      }
    };
  }

  /** @param {string} path @param {RequestInit} [options] */
  async response(path, options) {
    const { who, positions, staff, resultId, resultKey, n } = this.session;
    if (path === "_v/me") return Response.json({ who, positions, staff, resultId, version: n });
    if (path === "_v/fresh") return Response.json({ pages: [] });
    if (path === "_v/unsent" || path === "_v/sent") return Response.json({ lines: [] });
    if (path === "_v/result" && resultKey) {
      const content = new Uint8Array(await new Response(options?.body).arrayBuffer());
      return Response.json({ line: await sealResult(resultId, resultKey, content) });
    }
    const file = await this.read(path);
    return file ? new Response(file.content, { headers: { "Content-Type": file.media } }) : new Response("", { status: 404 });
  }
}

/** Runs inside a worker: its script is opened a moment after the page asks for it; what it is told until then waits. */
function waitingWorker() {
  /** @type {unknown[]} */
  const early = [];
  /** @param {MessageEvent} event */
  const wait = (event) => {
    event.stopImmediatePropagation();
    if (!event.data?.secondside) return early.push(event.data);
    self.removeEventListener("message", wait);
    /** @type {any} */ (self).importScripts(event.data.secondside);
    early.forEach((data) => self.dispatchEvent(new MessageEvent("message", { data })));
  };
  self.addEventListener("message", wait);
}

/** @param {string} part of an address, perhaps broken on its way */
export function spelt(part) {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** @param {Uint8Array | string} content @param {string} media */
function blobAddress(content, media) {
  return URL.createObjectURL(new Blob([content], { type: media }));
}
