// What the sheet shows while a step is practised. Rebuilt only where something changed; nothing moves by itself but the mark of the wait.
import { el } from "./element.js";
import { conditionsStrip } from "./conditions.js";
import { holdWords } from "./gate.js";
import { codeOf, spoken } from "./observer-code.js";
import { stopwatch } from "./words.js";

const second = 1000;
const reasons = ["Another position", "Other material", "Other words", "Another order", "Something came between"];

export class SheetFace {
  isShown = false;
  #isRevealed = false;

  constructor(sheet) {
    this.sheet = sheet;
    this.where = el("p", { class: "sheet-where" });
    this.step = el("h1", { class: "sheet-step" });
    this.said = el("p", { class: "sheet-said", role: "status" });
    this.words = el("p", { class: "sheet-words" });
    this.holds = el("div", { class: "sheet-holds" });
    this.mark = el("div", { class: "wait-mark", "aria-hidden": "true" });
    this.panel = el("div", { class: "sheet-panel" });
    this.foot = el("div", { class: "sheet-foot" }, this.#small("Conditions", () => this.#conditions()), this.#small("Second observer", () => this.#observer()), sheet.button({ kind: "end", words: "End the practice" }, { class: "sheet-small" }));
    this.info = el("div", { class: "sheet-info" }, this.where, this.step, this.said, this.words, this.mark, this.holds, this.panel, this.foot);
    this.column = el("div", { class: "sheet-column" });
    this.lower = el("div", { class: "sheet-lower" });
    this.cover = el("button", { type: "button", class: "sheet-cover", "aria-label": "Show the acts", on: { click: () => this.#reveal() } }, el("span", { class: "dim-mark" }));
    this.stop = sheet.button({ kind: "stop", words: "Stop" }, { class: "sheet-stop" });
    this.body = el("div", { class: "sheet" }, this.info, this.column, this.lower, this.stop, this.cover);
    this.body.addEventListener("keydown", event => { if (event.key === "Tab") this.#reveal(); });
  }

  enter() {
    if (this.isShown) return;
    this.isShown = true;
    this.body.dataset.edge = this.sheet.app.settings.edge;
    this.sheet.place.replaceChildren(this.body);
  }

  leave() {
    this.isShown = false;
  }

  draw(practice, step, state, acts, canUndo) {
    const focused = document.activeElement?.dataset?.kind;
    const hadFocus = this.body.contains(document.activeElement) && !this.panel.contains(document.activeElement);
    const { sheet } = this, index = practice.step + 1;
    this.where.textContent = `${practice.observesCode ? "Second observer. " : ""}${sheet.card.code}, ${sheet.card.name}: step ${index} of ${sheet.steps.length}`;
    this.step.textContent = step.words;
    this.said.textContent = said(practice, state);
    this.words.textContent = index === 1 && sheet.card.content.say ? `Say: ${sheet.card.content.say}` : "";
    this.lower.replaceChildren(sheet.button(acts.main, { class: "sheet-act sheet-main", "data-scan": "main" }));
    this.column.replaceChildren(...acts.column.map(a => sheet.button(a)), el("div", { class: "sheet-pair" },
      sheet.button({ kind: "undo", words: "Undo" }, { disabled: !canUndo }), sheet.button({ kind: "late", words: "About five seconds ago" }, { disabled: !canUndo || !isLately(practice) })));
    this.#cover(state);
    if (hadFocus) (this.body.querySelector(`[data-kind="${focused}"]:not([disabled])`) ?? this.lower.firstChild).focus();
  }

  /** The wait as a row of small marks, of which one steps on each second. */
  showWait({ phase, wait, waited, isDue }) {
    const isAsked = this.sheet.app.settings.end === "mark" && wait !== null && wait > 0 && ["waiting", "begun"].includes(phase);
    const all = isAsked ? Math.round(wait / second) : 0, at = Math.min(all, Math.floor(waited / second));
    const now = `${all} ${at} ${phase}`;
    if (this.mark.dataset.now === now) return;
    this.mark.dataset.now = now;
    this.mark.replaceChildren(...Array.from({ length: all }, (_, i) => el("span", { class: i === at || isDue && i === all - 1 ? "at" : "" })), isDue && all > 0 ? el("span", { class: "over" }, "wait is over") : "");
  }

  showHolds(holds) {
    const whole = holds.filter(h => h.step == null);
    if (whole.length > 0) this.#reveal();
    this.holds.replaceChildren(...whole.map(h => el("p", {}, `Stop, and ask. ${holdWords(h)}`)));
  }

  /** A word why the step was done differently. The practice goes on meanwhile. */
  askWhy() {
    const why = el("input", { type: "text", maxlength: 500, autocomplete: "off", "aria-label": "Why, in a word" });
    const save = words => { if (words.trim()) { this.panel.replaceChildren(); void this.sheet.perform({ kind: "otherwise", why: words.trim() }); } };
    this.#open("Done differently: why?",
      el("div", { class: "sheet-chips" }, reasons.map(words => this.#small(words, () => save(words)))),
      el("div", { class: "sheet-chips" }, why, this.#small("Save", () => save(why.value)), this.#small("Leave this step out", () => {
        this.panel.replaceChildren();
        void this.sheet.perform({ kind: "skip", why: why.value.trim() || "left out" });
      })));
  }

  #conditions() {
    const { conditions } = this.sheet.practice;
    this.#open("Conditions", conditionsStrip(conditions, "middle", (name, value) => void this.sheet.perform({ kind: "condition", name, value })));
  }

  /** The code for a colleague's device; a second observer sees whose sheet they score. */
  #observer() {
    const { id, observesCode } = this.sheet.practice;
    this.#open("Second observer", el("p", { class: "sheet-code" }, spoken(observesCode ?? codeOf(id))),
      el("p", {}, observesCode ? "The code of the sheet that you score a second time." : "A colleague types this code on their own device before they score with you. It holds for this practice."));
  }

  #open(title, ...parts) {
    this.panel.replaceChildren(el("h2", {}, title), ...parts, this.#small("Close", () => this.panel.replaceChildren()));
    this.panel.querySelector("button, input")?.focus();
  }

  #small = (words, click) => el("button", { type: "button", class: "sheet-small", "data-scan": "small", on: { click } }, words);

  #cover(state) {
    const isBlack = this.sheet.app.settings.black && ["waiting", "begun"].includes(state?.phase) && !this.#isRevealed;
    if (!["waiting", "begun"].includes(state?.phase)) this.#isRevealed = false;
    this.body.classList.toggle("black", isBlack);
    this.cover.hidden = !isBlack;
  }

  #reveal() {
    this.#isRevealed = true;
    this.body.classList.remove("black");
    this.cover.hidden = true;
  }
}

const isLately = practice => practice.trials.at(-1)?.events.length > 0 && !practice.trials.at(-1).events.at(-1).late;

const responses = { hopedFor: "hoped for", somethingElse: "something else", notSure: "not sure" };

/** What was taken last, so that a glance tells whether the tap was heard. */
function said(practice, state) {
  if (!state) return "";
  const trial = practice.trial ?? practice.trials.at(-1), last = trial?.events.at(-1);
  if (!last || trial.step !== practice.order[practice.step]) return "";
  const what = {
    cueEnded: "waiting", begun: "begun: the wait stands still", stoppedTrying: "waiting", prompt: `helped ${state.given} of ${practice.card.content.prompts.length}`,
    response: last.response ? `response, ${responses[last.response]}` : "response", refusal: "said no", end: "over",
  }[last.kind];
  return [what, `at ${stopwatch(last.at)}`, last.late && "about five seconds before", !trial.counts && "does not count", trial.interrupted && "interrupted: no time"].filter(Boolean).join(", ");
}
