// @ts-check
/** What the phone keeps between visits: one small IndexedDB per published address. Says so when it cannot keep. */

/** @typedef {{get: (key: string) => Promise<any>, set: (key: string, value: any) => Promise<boolean>, remove: (key: string) => Promise<void>}} Store */

/** @param {string} base path of the site, so that two sites of one origin never meet @returns {Store} */
export function openStore(base) {
  const name = "secondside:" + base;
  /** @type {Promise<IDBDatabase> | null} */
  let opening = null;

  function database() {
    opening ??= new Promise((resolve, reject) => {
      const request = indexedDB.open(name, 1);
      request.onupgradeneeded = () => request.result.createObjectStore("kept");
      request.onsuccess = () => {
        request.result.onversionchange = () => {
          request.result.close();
          opening = null;
        };
        resolve(request.result);
      };
      request.onerror = () => reject(request.error);
    });
    opening.catch(() => (opening = null));
    return opening;
  }

  /** @param {IDBTransactionMode} mode @param {(kept: IDBObjectStore) => IDBRequest} ask */
  async function run(mode, ask) {
    const db = await database();
    return new Promise((resolve, reject) => {
      const step = db.transaction("kept", mode);
      const request = ask(step.objectStore("kept"));
      step.oncomplete = () => resolve(request.result);
      step.onabort = step.onerror = () => reject(step.error || request.error);
    });
  }

  return {
    async get(key) {
      try {
        return await run("readonly", (kept) => kept.get(key));
      } catch {
        return undefined;
      }
    },
    /** False when it is not there afterwards: some browsers accept a key and forget it. */
    async set(key, value) {
      try {
        await run("readwrite", (kept) => kept.put(value, key));
        return (await run("readonly", (kept) => kept.get(key))) != null;
      } catch {
        return false;
      }
    },
    async remove(key) {
      try {
        await run("readwrite", (kept) => kept.delete(key));
      } catch {
        return;
      }
    },
  };
}
