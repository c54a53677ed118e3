// The practice sheet: takes an act, stores it, and only then shows what it changed.
import { actsFor } from "./acts.js";
import { keepAwake } from "./awake.js";
import { PracticeClock, reopenedAt } from "./clock.js";
import { el } from "./element.js";
import { showFinish } from "./finish-view.js";
import { holdsOn } from "./gate.js";
import { newId } from "./ids.js";
import { listenToKeys } from "./keyboard.js";
import { canUndo, practiceOf } from "./practice.js";
import { Scan } from "./scan.js";
import { SheetFace } from "./sheet-face.js";
import { showStop } from "./stop-view.js";
import { newTrial, stateOf } from "./timeline.js";

const often = 200; // milliseconds between looks at the clock
const doubleTap = 500; // milliseconds in which a second tap on what has just changed under the finger is none

export class Sheet {
  #acts;
  #chain = Promise.resolve();
  #scan = null;
  #timer = 0;
  #signalled = null;
  #changedAt = -Infinity;
  #leaving = [];

  constructor(app, place, card, acts) {
    Object.assign(this, { app, place, card });
    this.#acts = acts;
  }

  async begin(start) {
    this.clock = new PracticeClock();
    if (await this.#store({ kind: "start", start })) this.#enter();
    else this.app.show();
  }

  /** The practice that was going on: a trial that ran was cut, and has no time. */
  async reopen() {
    const practice = practiceOf(this.#acts);
    this.clock = new PracticeClock(reopenedAt(practice.startedAt, practice.lastAt, Date.now()));
    if (practice.endedAt === null && !practice.isStopped) await this.#store({ kind: "interrupted", at: this.clock.now() });
    this.#enter();
  }

  get practice() {
    return practiceOf(this.#acts);
  }

  get steps() {
    return this.card.content.steps;
  }

  #enter() {
    document.body.classList.add("practising");
    this.face = new SheetFace(this);
    const { settings } = this.app;
    this.#leaving = [keepAwake(), listenToKeys(settings, { learner: () => this.#closure(), pedal: () => this.#pedal() })];
    this.#timer = setInterval(() => this.#tick(), often);
    const draw = () => this.face.showHolds(this.#holds());
    this.place.addEventListener("changed", draw);
    this.#leaving.push(() => this.place.removeEventListener("changed", draw));
    if (settings.pedalKey && settings.pedal === "scan") this.#scan = new Scan(settings.scanSeconds, () => [...this.place.querySelectorAll("[data-scan]:not([hidden]):not(:disabled)")]);
    this.draw();
  }

  leave() {
    clearInterval(this.#timer);
    this.#scan?.stop();
    this.#leaving.forEach(stop => stop());
    this.#leaving = [];
    document.body.classList.remove("practising");
  }

  /** Takes one act: its time is that of the tap, and the screen changes once it is on the device. */
  perform(act) {
    const timed = { at: this.clock.now(), by: "screen", trial: newId(), ...act };
    this.#chain = this.#chain.then(async () => {
      if (await this.#store(timed)) this.draw(timed.by === "learnerSwitch");
    });
    return this.#chain;
  }

  async #store(act) {
    const stored = await this.app.guard(async () => {
      await this.app.store.addAct(act);
      return true;
    });
    if (stored) this.#acts.push(act);
    return Boolean(stored);
  }

  /** A tap on an act. What changed under the finger a moment ago does not take a second tap. */
  tap(act, by) {
    if (by === "screen" && act.kind === this.#main?.kind && performance.now() - this.#changedAt < doubleTap) return;
    if (act.kind === "differently") this.face.askWhy();
    else void this.perform({ ...act, by });
  }

  #main = null;

  stateNow() {
    const practice = this.practice, step = this.steps[practice.step];
    if (!step || step.kind !== "response") return null;
    const last = practice.trials.at(-1);
    const over = last?.step === step.key && practice.trial === null && last.events.some(e => e.kind === "refusal") ? last : null;
    return stateOf(practice.trial ?? over ?? newTrial("", step.key, practice.atOnce), this.card.content, step, this.clock.now());
  }

  draw(isLearners = false) {
    const practice = this.practice;
    if (practice.endedAt !== null || practice.step >= this.steps.length) return this.#finish(practice);
    if (practice.isStopped) return this.#stop(practice);
    this.face.enter();
    const step = this.steps[practice.step], state = this.stateNow();
    const acts = actsFor(step, state, {
      atOnce: practice.atOnce, hold: this.#holds().find(h => h.step === step.key), isLast: practice.step === this.steps.length - 1,
      hasTrials: practice.trials.some(t => t.step === step.key),
    });
    if (this.#main && acts.main.kind !== this.#main.kind) this.#changedAt = performance.now();
    this.#main = acts.main;
    this.face.draw(practice, step, state, acts, canUndo(this.#acts));
    this.face.showHolds(this.#holds());
    this.#scan?.begin(isLearners);
    this.#tick();
  }

  #holds = () => holdsOn({ id: this.card.routine, ...this.card }, this.app.checked.holds);

  #stop(practice) {
    this.face.leave();
    showStop(this, practice);
    this.#scan?.begin();
  }

  #finish(practice) {
    this.face.leave();
    if (practice.endedAt === null) void this.perform({ kind: "end" });
    else showFinish(this, practice);
  }

  #tick() {
    const state = this.stateNow();
    if (!state || !this.face.isShown) return;
    this.face.showWait(state);
    const name = state.isDue ? `${this.practice.trial?.id} ${state.given}` : null;
    if (name !== null && name !== this.#signalled && this.app.settings.end === "vibration") navigator.vibrate?.(200);
    this.#signalled = name;
  }

  #closure() {
    if (this.practice.endedAt === null) void this.perform({ kind: "closure", by: "learnerSwitch" });
  }

  #pedal() {
    const button = this.#scan ? this.#scan.marked : this.place.querySelector("[data-scan='main']");
    if (!button) return;
    this.by = "pedal";
    button.click();
    this.by = null;
  }

  /** Who pressed a button: a key presses it with no finger on it. */
  byOf(event) {
    return this.by ?? (event.detail === 0 ? "key" : "screen");
  }

  button(act, attributes = {}) {
    return el("button", { type: "button", class: "sheet-act", "data-kind": act.kind, "data-scan": attributes["data-scan"] ?? "act", ...attributes, on: { click: event => this.tap(act, this.byOf(event)) } },
      el("span", {}, act.words), act.under && act.under.map(line => el("span", { class: "under" }, line)));
  }
}
