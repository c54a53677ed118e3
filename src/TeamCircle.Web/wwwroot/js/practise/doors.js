// Who has things on this device. One door a person: whose it is by number and initials, the wrapped key, and wrong tries.
// Behind it lies a database of its own with a random name, so that two people on one tablet never meet.
import * as database from "./database.js";
import { dataKeyOf, makeBrowserKey, unwrap, wrap } from "./keys.js";

export const mostWrongPins = 10;

const stores = { doors: { keyPath: "store" } };
const withDoors = async work => {
  const db = await database.open("practise", stores);
  try {
    return await work(db);
  } finally {
    db.close();
  }
};

export const all = () => withDoors(db => database.read(db, "doors", doors => doors.getAll()));

export const ofPerson = async person => (await all()).find(door => door.person === person) ?? null;

const keep = door => withDoors(db => database.write(db, ["doors"], doors => doors.put(door)));

/** Changes what stands about a door, in one transaction: two tabs that count wrong tries count both. */
const change = (store, by) => withDoors(db => new Promise((resolve, reject) => {
  const transaction = db.transaction("doors", "readwrite", { durability: "strict" });
  const doors = transaction.objectStore("doors");
  let changed = null;
  doors.get(store).onsuccess = ({ target }) => {
    if (!target.result) return;
    changed = { ...target.result, ...by(target.result) };
    doors.put(changed);
  };
  transaction.oncomplete = () => resolve(changed);
  transaction.onabort = () => reject(database.failureOf(transaction));
}));

/**
 * A door as it stands after the server gave the key: at enrolment, or at an online sign-in after a forgotten PIN or a sign-out.
 * @param given { device, store, key: base64 }
 * @returns { door, key }
 */
export async function setUp(given, person, pin) {
  const raw = Uint8Array.from(atob(given.key), c => c.charCodeAt(0));
  const browserKey = await makeBrowserKey();
  const door = {
    store: given.store, device: given.device, person: person.id, initials: person.initials,
    browserKey, wrapped: await wrap(raw, pin, browserKey), wrong: 0, expires: null,
  };
  await keep(door);
  return { door, key: await dataKeyOf(raw) };
}

/**
 * Tries a PIN. The try is counted before it is made, so that ending the page in between gains none.
 * @returns { key, door }, key null where it is wrong; after ten wrong ones the wrapped key is gone and only a sign-in opens
 */
export async function tryPin(store, pin) {
  const door = await change(store, d => ({ wrong: d.wrong + 1 }));
  if (!door?.wrapped || door.wrong > mostWrongPins) return { key: null, door: await lock(store) };
  const key = await unwrap(door.wrapped, pin, door.browserKey);
  if (key) return { key, door: await change(store, () => ({ wrong: 0 })) };
  return { key: null, door: door.wrong >= mostWrongPins ? await lock(store) : door };
}

/** Nothing behind the door can be read until its person signs in online; nothing is lost: the server has the key. */
export const lock = store => change(store, () => ({ wrapped: null, browserKey: null }));

/** After these, seven days without a contact, everything but what was not sent goes. */
export const expire = (store, expires) => change(store, () => ({ expires }));

export const forget = store => withDoors(db => database.write(db, ["doors"], doors => doors.delete(store)));
