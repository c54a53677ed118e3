// What all practice pages share: whose device this is now, what lies open on it, and what the server last said.
import * as doors from "./doors.js";
import { momentIn, Skew } from "./clock.js";
import { NoRoom } from "./database.js";
import { Store, waitingBehind, wipe } from "./store.js";
import { ask, contact, operationOf, othersDone, send, standing } from "./sync.js";

const bundleHolds = 15 * 60_000; // milliseconds after which today's and tomorrow's visits are asked for again

const defaults = {
  edge: "right", look: "dark", black: false, end: "mark", learnerKey: null, pedalKey: null, pedal: "main", scanSeconds: 2,
};

const ownHold = ({ learner, routine, step, reason, toldBy }) => ({ learner, routine, step, reason, toldBy: toldBy ?? "you" });

export class App {
  door = null;
  store = null;
  bundle = null;
  settings = { ...defaults };
  checked = { at: null, holds: [], contactHours: 24 };
  heard = null;
  sending = null;
  /** Learners of whom whoever stands in has read here what comes first; asked again each time these pages are opened. */
  readFirst = new Set();
  #bundleAt = null;
  #waiting = null;
  #again = false;
  #keeping = Promise.resolve();
  /** Told whenever something that pages show has changed. */
  onChange = () => {};

  constructor(tell) {
    this.tell = tell;
    this.skew = new Skew();
  }

  /** Whether the server answers, and to whom. */
  async ask() {
    this.heard = await contact(this.door?.device);
    if (this.heard?.serverTime) this.skew.hear(this.heard.serverTime, this.heard.askedTick);
    return this.heard;
  }

  get isSignedInHere() {
    return this.heard !== null && this.door !== null && this.heard.person?.id === this.door.person;
  }

  async open(door, key) {
    this.door = door;
    this.store = await Store.open(door, key);
    this.bundle = await this.store.kept("bundle");
    this.checked = await this.store.kept("checked") ?? this.checked;
    if (this.checked.skewMs != null) this.skew.remember(this.checked.skewMs);
    this.settings = { ...defaults, ...await this.store.kept("settings") };
    await this.refresh();
  }

  close() {
    this.store?.close();
    this.#bundleAt = null;
    this.readFirst.clear();
    this.store = this.door = this.bundle = null;
  }

  /**
   * Sends what waits, hears of holds, and fetches what today and tomorrow need. Without network everything stays as it is. Asked for while it
   * runs, it runs once more: what was recorded meanwhile, or a network that came back, is not to wait for the next minute.
   */
  refresh() {
    this.#again = true;
    this.sending ??= this.#refreshAll();
    return this.sending;
  }

  async #refreshAll() {
    try {
      while (this.#again) {
        this.#again = false;
        await this.#refresh();
      }
    } finally {
      this.sending = null; // at once with the last look at whether it was asked for again: nothing falls between the two
      this.onChange();
    }
  }

  async #refresh() {
    if (!this.store) return;
    const { state, ended, heard } = await this.#guard(() => send(this.store, this.door, this.skew)) ?? { state: "noRoom", ended: [] };
    if (state === "busy") return this.#wait();
    this.heard = heard ?? null;
    this.state = state;
    if (state === "revoked") return this.takenAway();
    if (heard?.serverTime && heard.person.id === this.door.person) await this.#hear(ended.some(e => e.kind === "hold") ? await this.ask() ?? heard : heard);
    if (state === "sent" && this.#needsBundle(ended)) await this.#fetchBundle();
    const notStored = ended.filter(e => e.end !== "stored").length;
    if (notStored > 0) this.tell("Something that was sent was set aside for a person: see what waits.");
  }

  /** What another tab sends leaves this one's list too: it looks again once that tab is done. */
  #wait() {
    this.state = "busy";
    this.#waiting ??= othersDone(this.door).then(() => {
      this.#waiting = null;
      return this.refresh();
    });
  }

  async #hear(heard) {
    const own = (await this.store.queued()).filter(({ value }) => value.kind === "hold").map(({ value }) => ownHold(value.body));
    this.checked = { at: Date.parse(heard.serverTime), holds: [...heard.holds ?? [], ...own], contactHours: heard.device?.contactHours ?? 24, skewMs: this.skew.ms };
    await this.#guard(() => this.store.keep("checked", this.checked));
    if (heard.quiet?.length > 0) await this.#letGo(new Set(heard.quiet));
  }

  /** What is here of learners who are quiet goes at once; what was recorded and not sent stays. */
  async #letGo(quiet) {
    if (!this.bundle?.learners.some(l => quiet.has(l.id))) return;
    const others = row => !quiet.has(row.learner);
    const { learners, visits, services, routines, goals } = this.bundle;
    this.bundle = {
      ...this.bundle, learners: learners.filter(l => !quiet.has(l.id)), visits: visits.filter(others), services: services.filter(others),
      routines: routines.filter(others), goals: goals.filter(others),
    };
    await this.#guard(async () => {
      await this.store.keep("bundle", this.bundle);
      await this.store.keepOnlyPictures(this.bundle.routines.flatMap(r => r.pictures ?? []).map(p => p.id));
    });
  }

  /** Each time it leaves a record of access: so not at each contact, and never in the middle of a practice. */
  #needsBundle(ended) {
    if (document.body.classList.contains("practising")) return false;
    return this.#bundleAt === null || ended.length > 0 || performance.now() - this.#bundleAt > bundleHolds;
  }

  async #fetchBundle() {
    const { body } = await ask(`/device/bundle?device=${this.door.device}`);
    if (!Array.isArray(body?.routines) || !Array.isArray(body.visits)) return;
    this.#bundleAt = performance.now();
    this.bundle = body;
    await this.#guard(async () => {
      await this.store.keep("bundle", body);
      this.door = await doors.expire(this.door.store, body.expires) ?? this.door;
      await this.#fetchPictures(body.routines.flatMap(r => r.pictures ?? []).map(p => p.id));
    });
  }

  async #fetchPictures(ids) {
    for (const id of await this.store.keepOnlyPictures(ids)) {
      const answer = await fetch(`/device/picture/${id}`, { cache: "no-store" }).catch(() => null);
      if (answer?.ok && answer.headers.get("content-type") === "image/jpeg")
        await this.store.keepPicture(id, new Uint8Array(await answer.arrayBuffer()));
    }
  }

  /** The administrator, or its person, has revoked this device. */
  async takenAway() {
    const door = this.door;
    this.close();
    await wipe(door);
    this.onChange("takenAway");
  }

  /** Stores an operation, then tries to send it. @returns false where there is no room: nothing was stored */
  async record(kind, id, body, label) {
    const stored = await this.#guard(async () => {
      await this.store.queue(operationOf(kind, id, body, label, this.skew));
      return true;
    });
    if (stored) void this.refresh();
    return Boolean(stored);
  }

  /** A hold blocks here at once, whether or not the portal has heard of it. */
  async recordHold(id, body, label) {
    this.checked = { ...this.checked, holds: [...this.checked.holds, ownHold(body)] };
    await this.#guard(() => this.store.keep("checked", this.checked));
    return this.record("hold", id, body, label);
  }

  /** The practice that was going on is over: its acts become one operation. @returns false where there is no room */
  async recordPractice(id, record, label) {
    const stored = await this.#guard(async () => {
      await this.store.actsToQueue(operationOf("practice", id, record, label, this.skew));
      return true;
    });
    if (stored) void this.refresh();
    return Boolean(stored);
  }

  /** One after the other: each is put to what the one before left, so that of two choices made quickly both stay. */
  keepSettings(changed) {
    this.#keeping = this.#keeping.catch(() => {}).then(() => this.#keepSettings(changed));
    return this.#keeping;
  }

  async #keepSettings(changed) {
    const settings = { ...this.settings, ...changed };
    await this.#guard(async () => {
      await this.store.keep("settings", settings);
      this.settings = settings;
    });
    this.onChange();
  }

  /** Runs what writes. Where the device has no room it says so, and nothing that was stored is touched. */
  async #guard(work) {
    try {
      return await work();
    } catch (failure) {
      if (!(failure instanceof NoRoom)) throw failure;
      this.tell("This device has no room left. That was not recorded; nothing that was recorded before is gone. Make room, then do it again.");
      return undefined;
    }
  }

  guard = work => this.#guard(work);

  waiting = () => waitingBehind(this.door);

  /** Whether the log and the routines of a learner stay shut until the person has read what comes first. */
  mustReadFirst = id => Boolean(this.learner(id)?.readFirst) && !this.readFirst.has(id);

  /** Today and the time of day in the agency's zone, by this device's clock put right. */
  here = () => momentIn(this.bundle.zone, Date.now() - (this.skew.ms ?? 0));

  learner = id => this.bundle?.learners.find(l => l.id === id);

  standing = () => standing(this.heard, this.door);
}
