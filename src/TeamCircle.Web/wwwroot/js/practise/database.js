// IndexedDB as promises. A write is over when the disk has it: an empty battery a moment later takes nothing away.

/** Told where the device has no room: nothing was stored, and nothing that was stored is gone. */
export class NoRoom extends Error {}

/** Why a transaction came to nothing. */
export function failureOf({ error }) {
  return error?.name === "QuotaExceededError" ? new NoRoom() : error ?? new DOMException("The transaction was given up.", "AbortError");
}

export function open(name, stores) {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(name, 1);
    asked.onupgradeneeded = () => {
      for (const [store, options] of Object.entries(stores)) asked.result.createObjectStore(store, options);
    };
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => {
      // Another tab wipes this database: let go, or it waits for ever.
      asked.result.onversionchange = () => asked.result.close();
      resolve(asked.result);
    };
  });
}

/** Runs `work(stores…)` in one transaction. @returns what its last request gave @throws NoRoom, or the browser's own error */
export function write(db, names, work) {
  return run(db, names, "readwrite", work);
}

export function read(db, name, work) {
  return run(db, [name], "readonly", work);
}

function run(db, names, mode, work) {
  return new Promise((resolve, reject) => {
    const transaction = db.transaction(names, mode, { durability: "strict" });
    transaction.onabort = () => reject(failureOf(transaction));
    let request;
    transaction.oncomplete = () => resolve(request?.result);
    request = work(...names.map(name => transaction.objectStore(name)));
  });
}

/** All of a store with its keys, in the order of the keys. */
export function entries(db, name) {
  return new Promise((resolve, reject) => {
    const list = [], cursor = db.transaction(name).objectStore(name).openCursor();
    cursor.onerror = () => reject(cursor.error);
    cursor.onsuccess = () => {
      if (!cursor.result) return resolve(list);
      list.push([cursor.result.key, cursor.result.value]);
      cursor.result.continue();
    };
  });
}

/** Deletes a whole database. Tabs that hold it open let go first. */
export function remove(name) {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.deleteDatabase(name);
    asked.onsuccess = () => resolve();
    asked.onerror = () => reject(asked.error);
  });
}
