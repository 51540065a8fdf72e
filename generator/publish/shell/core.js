// @ts-check
/**
 * The browser's half of the vault: the same bytes as generator/vault (its docstring is the format).
 * Pure: no storage, no network, no page. Everything that cannot be opened throws NotOpened, and nothing else.
 */

/** These bytes were not made with our key, or were changed since. */
export class NotOpened extends Error {}

/** @typedef {{lock: CryptoKey, name: CryptoKey}} BlobKeys what opens blobs, and what checks their names */
/** @typedef {{n: number, salt: Uint8Array, rounds: number, heads: Record<string, string>, seats: Record<string, Uint8Array>,
 *   body: string, signature: Uint8Array}} Boot */
/** @typedef {{staff: boolean, keys: [string, Uint8Array][], pub: Uint8Array, who: string, positions: number[],
 *   resultId: string, resultKey: Uint8Array}} Payload */
/** @typedef {{blob: string, key: string, media: string, size: number}} Entry */
/** @typedef {{g: number, files: Map<string, Entry>, oldKeys: Record<string, Uint8Array>}} Manifest */

const PAYLOAD = 384;
const WRAP = 12 + PAYLOAD + 16;
const LARGEST = 64 * 1024 * 1024;
const LARGEST_BOOT = 1000000;
const NAME = /^[0-9a-f]{32}$/;
const utf8 = new TextEncoder();
const strictText = new TextDecoder("utf-8", { fatal: true });

/** @param {string} code @returns {string} the one spelling that is stretched */
export function normalisedCode(code) {
  const plain = code.normalize("NFKC").toLowerCase().replace(/[\s\u2010-\u2014\u2212-]/g, "");
  return plain.replace(/o/g, "0").replace(/[il]/g, "1");
}

/** @param {string} code @returns {boolean} true when it has the length and the letters of a code */
export function looksLikeCode(code) {
  return /^[0-9a-hjkmnp-tv-z]{16}$/.test(normalisedCode(code));
}

/**
 * The slow step: about a quarter of a second on a laptop.
 * @param {string} code @param {Uint8Array} salt @param {number} rounds
 * @returns {Promise<{seat: string, key: CryptoKey}>}
 */
export async function seatKey(code, salt, rounds) {
  const secret = await crypto.subtle.importKey("raw", bytesOf(normalisedCode(code)), "PBKDF2", false, ["deriveBits"]);
  const stretched = await crypto.subtle.deriveBits({ name: "PBKDF2", hash: "SHA-256", salt, iterations: rounds }, secret, 256);
  const id = await derive(new Uint8Array(stretched), "secondside/1 seat id", 16);
  const key = await derive(new Uint8Array(stretched), "secondside/1 seat key", 32);
  return { seat: hex(id), key: await gcmKey(key, ["decrypt"]) };
}

/** @param {Uint8Array} key @param {string | Uint8Array} info @param {number} length @param {Uint8Array} [salt] */
export async function derive(key, info, length, salt = new Uint8Array(0)) {
  const base = await crypto.subtle.importKey("raw", key, "HKDF", false, ["deriveBits"]);
  const label = typeof info === "string" ? bytesOf(info) : info;
  return new Uint8Array(await crypto.subtle.deriveBits({ name: "HKDF", hash: "SHA-256", salt, info: label }, base, length * 8));
}

/** @param {Uint8Array} contentKey @returns {Promise<{id: string, keys: BlobKeys}>} */
export async function audienceKey(contentKey) {
  const [id, lock, name] = await Promise.all([
    derive(contentKey, "secondside/1 key id", 4),
    derive(contentKey, "secondside/1 lock", 32),
    derive(contentKey, "secondside/1 name", 32),
  ]);
  const mac = await crypto.subtle.importKey("raw", name, { name: "HMAC", hash: "SHA-256" }, false, ["sign"]);
  return { id: hex(id), keys: { lock: await gcmKey(lock, ["decrypt"]), name: mac } };
}

/**
 * A well-formed boot file; its signature is not yet checked.
 * @param {string} text @returns {Boot}
 */
export function readBoot(text) {
  try {
    if (text.length > LARGEST_BOOT) throw new NotOpened("too long");
    const outer = JSON.parse(text);
    const d = JSON.parse(outer.body);
    if (outer.v !== 1 || d.v !== 1 || typeof outer.body !== "string") throw new NotOpened("version");
    const boot = {
      n: whole(d.n, 2 ** 48), salt: fromBase64(d.kdf.s), rounds: whole(d.kdf.i, 10000000), heads: names(d.heads, /^[0-9a-f]{4}$/),
      seats: seatsOf(d.seats), body: outer.body, signature: fromBase64(outer.sig),
    };
    if (boot.salt.length !== 16) throw new NotOpened("salt");
    return boot;
  } catch (problem) {
    throw asNotOpened(problem);
  }
}

/** @param {Boot} boot @param {Uint8Array} pub 65 bytes @returns {Promise<boolean>} */
export async function isSigned(boot, pub) {
  try {
    const algorithm = { name: "ECDSA", namedCurve: "P-256" };
    const key = await crypto.subtle.importKey("raw", pub, algorithm, false, ["verify"]);
    const text = bytesOf("secondside/1 boot\n" + boot.body);
    return boot.signature.length === 64 && (await crypto.subtle.verify({ name: "ECDSA", hash: "SHA-256" }, key, boot.signature, text));
  } catch {
    return false;
  }
}

/** @param {CryptoKey} key @param {string} seat @param {Uint8Array | undefined} entry @returns {Promise<Payload>} */
export async function openSeat(key, seat, entry) {
  if (!entry || entry.length !== WRAP) throw new NotOpened("no such seat");
  const raw = await decrypt(key, entry.subarray(0, 12), entry.subarray(12), bytesOf("secondside/1 seat " + seat));
  try {
    const d = JSON.parse(strictText.decode(raw));
    const payload = {
      staff: d.a === "s", keys: d.k.map((/** @type {[string, string]} */ [a, k]) => [String(a), fromBase64(k)]), pub: fromBase64(d.p),
      who: String(d.w), positions: d.n.map(Number), resultId: String(d.i), resultKey: fromBase64(d.r),
    };
    const sizes = [...payload.keys.map((/** @type {[string, Uint8Array]} */ k) => k[1]), payload.resultKey].every((k) => k.length === 32);
    if (d.v !== 1 || !sizes || payload.pub.length !== 65) throw new NotOpened("payload");
    return payload;
  } catch (problem) {
    throw asNotOpened(problem);
  }
}

/**
 * The content of a blob; its name must be that of its body, and a page never passes for a manifest.
 * @param {BlobKeys} keys @param {string} name @param {Uint8Array} data @param {boolean} [manifest]
 * @returns {Promise<Uint8Array>}
 */
export async function openBlob(keys, name, data, manifest = false) {
  if (!NAME.test(name) || data.length < 28) throw new NotOpened("not a blob");
  const id = fromHex(name);
  const body = await decrypt(keys.lock, data.subarray(0, 12), data.subarray(12), id);
  const real = new Uint8Array(await crypto.subtle.sign("HMAC", keys.name, body));
  if (!id.every((byte, i) => byte === real[i])) throw new NotOpened("the name is another body's");
  return contentOf(body, manifest);
}

/** @param {BlobKeys} keys @param {string} name @param {Uint8Array} data @returns {Promise<Manifest>} */
export async function openManifest(keys, name, data) {
  const raw = await openBlob(keys, name, data, true);
  try {
    const d = JSON.parse(strictText.decode(raw));
    if (d.v !== 1) throw new NotOpened("version");
    /** @type {Map<string, Entry>} */
    const files = new Map();
    for (const [path, [blob, key, media, size]] of Object.entries(d.files)) {
      files.set(path, { blob: String(blob), key: String(d.kids[key]), media: String(d.types[media]), size: Number(size) });
    }
    /** @type {Record<string, Uint8Array>} */
    const oldKeys = {};
    for (const [id, key] of Object.entries(d.keys)) oldKeys[id] = fromBase64(key);
    return { g: whole(d.g, 2 ** 48), files, oldKeys };
  } catch (problem) {
    throw asNotOpened(problem);
  }
}

/**
 * One line of text that only the book's staff can open.
 * @param {string} resultId @param {CryptoKey} key @param {Uint8Array} content @param {Uint8Array} [nonce]
 */
export async function sealResult(resultId, key, content, nonce = crypto.getRandomValues(new Uint8Array(12))) {
  const who = fromHex(resultId);
  const bound = join([bytesOf("secondside/1 result"), who]);
  const sealed = await crypto.subtle.encrypt({ name: "AES-GCM", iv: nonce, additionalData: bound }, key, content);
  const line = toBase64(join([Uint8Array.of(1), who, nonce, new Uint8Array(sealed)]));
  return line.replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
}

/**
 * Opens a result line with the keys of those who may have made it.
 * @param {string} line @param {{id: string, who: string, key: string, old?: boolean}[]} people
 * @returns {Promise<{who: string, old: boolean, content: Uint8Array}>} `old`: made with a card that has been replaced since
 */
export async function openResult(line, people) {
  try {
    const raw = fromBase64(line.replace(/\s/g, "").replace(/-/g, "+").replace(/_/g, "/"));
    const id = raw.subarray(1, 5);
    const person = people.find((p) => p.id === hex(id));
    if (raw[0] !== 1 || !person) throw new NotOpened("nobody of this list");
    const key = await gcmKey(fromBase64(person.key), ["decrypt"]);
    const content = await decrypt(key, raw.subarray(5, 17), raw.subarray(17), join([bytesOf("secondside/1 result"), id]));
    return { who: person.who, old: person.old === true, content };
  } catch (problem) {
    throw asNotOpened(problem);
  }
}

/** @param {Uint8Array} raw @param {KeyUsage[]} uses */
export function gcmKey(raw, uses) {
  return crypto.subtle.importKey("raw", raw, "AES-GCM", false, uses);
}

/** @param {CryptoKey} key @param {Uint8Array} nonce @param {Uint8Array} sealed @param {Uint8Array} bound */
async function decrypt(key, nonce, sealed, bound) {
  try {
    return new Uint8Array(await crypto.subtle.decrypt({ name: "AES-GCM", iv: nonce, additionalData: bound }, key, sealed));
  } catch (problem) {
    throw asNotOpened(problem);
  }
}

/** @param {Uint8Array} body @param {boolean} manifest */
async function contentOf(body, manifest) {
  const size = body.length < 5 ? -1 : new DataView(body.buffer, body.byteOffset).getUint32(1);
  const kept = body.subarray(5, 5 + size);
  if (size < 0 || body[0] > 3 || kept.length !== size || body.subarray(5 + size).some((byte) => byte !== 0)) throw new NotOpened("body");
  if (((body[0] & 2) !== 0) !== manifest) throw new NotOpened("kind");
  return body[0] & 1 ? unpacked(kept) : kept;
}

/** @param {Uint8Array} packed */
async function unpacked(packed) {
  try {
    const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip")).getReader();
    const parts = [];
    let size = 0;
    for (let step = await reader.read(); !step.done; step = await reader.read()) {
      size += step.value.length;
      if (size > LARGEST) throw new NotOpened("larger than any page");
      parts.push(step.value);
    }
    return join(parts);
  } catch (problem) {
    throw asNotOpened(problem);
  }
}

/** @param {unknown} problem */
function asNotOpened(problem) {
  return problem instanceof NotOpened ? problem : new NotOpened(String(problem));
}

/** @param {unknown} value @param {number} limit */
function whole(value, limit) {
  if (typeof value !== "number" || !Number.isInteger(value) || value <= 0 || value > limit) throw new NotOpened("number");
  return value;
}

/** @param {Record<string, unknown>} d @param {RegExp} key @returns {Record<string, string>} */
function names(d, key) {
  for (const [k, name] of Object.entries(d)) if (!key.test(k) || !NAME.test(String(name))) throw new NotOpened("name");
  return /** @type {Record<string, string>} */ ({ ...d });
}

/** @param {Record<string, unknown>} d @returns {Record<string, Uint8Array>} */
function seatsOf(d) {
  /** @type {Record<string, Uint8Array>} */
  const seats = {};
  for (const [id, entry] of Object.entries(d)) {
    const raw = fromBase64(entry);
    if (!NAME.test(id) || raw.length !== WRAP) throw new NotOpened("seat");
    seats[id] = raw;
  }
  return seats;
}

/** @param {string} text */
export function bytesOf(text) {
  return utf8.encode(text);
}

/** @param {Uint8Array[]} parts */
export function join(parts) {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** @param {unknown} text */
export function fromBase64(text) {
  if (typeof text !== "string") throw new NotOpened("not text");
  return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}

/** @param {Uint8Array} raw */
export function toBase64(raw) {
  let text = "";
  for (const byte of raw) text += String.fromCharCode(byte);
  return btoa(text);
}

/** @param {Uint8Array} raw */
export function hex(raw) {
  return Array.from(raw, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** @param {string} text */
export function fromHex(text) {
  return Uint8Array.from(text.match(/../g) || [], (pair) => parseInt(pair, 16));
}
