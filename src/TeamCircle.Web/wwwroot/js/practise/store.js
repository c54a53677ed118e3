// What one person has on this device, all of it sealed with the data key. One record an act: an act is on the disk before the
// screen changes. What was typed leaves only when the server has named it.
import * as database from "./database.js";
import * as doors from "./doors.js";
import { openBytes, seal, sealBytes, unseal } from "./keys.js";

const auto = { autoIncrement: true };
const stores = { acts: auto, queue: auto, ended: auto, kept: {}, pictures: {} };

const openDatabase = store => database.open(store, stores);

export class Store {
  #db;
  #key;

  static async open(door, key) {
    const store = new Store();
    [store.#db, store.#key, store.name] = [await openDatabase(door.store), key, door.store];
    return store;
  }

  // ---- acts of the practice that is going on
  async addAct(act) {
    const sealed = await seal(this.#key, act, "acts");
    await this.#write(["acts"], acts => acts.add(sealed));
  }

  acts = () => this.#all("acts").then(list => list.map(({ value }) => value));

  /** The practice is over: it becomes an operation to send, and its acts go, in one step. */
  async actsToQueue(operation) {
    const sealed = await seal(this.#key, operation, "queue");
    await this.#write(["queue", "acts"], (queue, acts) => { queue.add(sealed); return acts.clear(); });
  }

  /** A practice in which nothing was recorded. */
  dropActs = () => this.#write(["acts"], acts => acts.clear());

  // ---- operations not sent yet, in the order in which they were made
  async queue(operation) {
    const sealed = await seal(this.#key, operation, "queue");
    await this.#write(["queue"], queue => queue.add(sealed));
  }

  /** @returns [{ at (its place), value }] */
  queued = () => this.#all("queue");

  /** The server has named these: each leaves the queue in the same step in which its answer is kept. */
  async answered(list) {
    const sealed = await Promise.all(list.map(({ ended }) => seal(this.#key, ended, "ended")));
    await this.#write(["queue", "ended"], (queue, ended) => {
      list.forEach(({ at }, i) => { queue.delete(at); ended.add(sealed[i]); });
    });
  }

  ended = () => this.#all("ended");

  forgetEnded = places => this.#write(["ended"], ended => places.forEach(at => ended.delete(at)));

  // ---- what is kept under a name: the bundle, holds, settings
  async keep(name, value) {
    const sealed = await seal(this.#key, value, name);
    await this.#write(["kept"], kept => kept.put(sealed, name));
  }

  async kept(name) {
    const sealed = await database.read(this.#db, "kept", kept => kept.get(name));
    return sealed ? unseal(this.#key, sealed, name) : null;
  }

  // ---- pictures of cue and set-up
  async keepPicture(id, bytes) {
    const sealed = await sealBytes(this.#key, bytes, "pictures");
    await this.#write(["pictures"], pictures => pictures.put(sealed, id));
  }

  async picture(id) {
    const sealed = await database.read(this.#db, "pictures", pictures => pictures.get(id));
    return sealed ? new Blob([await openBytes(this.#key, sealed, "pictures")], { type: "image/jpeg" }) : null;
  }

  async keepOnlyPictures(ids) {
    const have = await database.read(this.#db, "pictures", pictures => pictures.getAllKeys());
    await this.#write(["pictures"], pictures => have.filter(id => !ids.includes(id)).forEach(id => pictures.delete(id)));
    return ids.filter(id => !have.includes(id));
  }

  close() {
    this.#db.close();
  }

  async #all(name) {
    const list = await database.entries(this.#db, name);
    return Promise.all(list.map(async ([at, sealed]) => ({ at, value: await unseal(this.#key, sealed, name) })));
  }

  #write(names, work) {
    return database.write(this.#db, names, work);
  }
}

/** How much waits behind a door, without its key. */
export async function waitingBehind(door) {
  const db = await openDatabase(door.store);
  const counts = await Promise.all(["queue", "acts"].map(name => database.read(db, name, store => store.count())));
  db.close();
  return { operations: counts[0], isPractising: counts[1] > 0 };
}

/**
 * Sign-out, seven days without contact, or a device taken away: everything goes but what was not sent, which stays as it is, sealed,
 * and with it the number of the device whose key the server keeps. Where nothing waits, not even the door stays.
 */
export async function wipe(door) {
  const waiting = await waitingBehind(door);
  if (waiting.operations === 0 && !waiting.isPractising) {
    await database.remove(door.store);
    await doors.forget(door.store);
    return waiting;
  }
  const db = await openDatabase(door.store);
  await database.write(db, ["ended", "kept", "pictures"], (...all) => all.map(store => store.clear()).at(-1));
  db.close();
  await doors.lock(door.store);
  return waiting;
}
