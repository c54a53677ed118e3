// Stop: time stands still for the practice and runs in large figures for whoever looks after the learner. It asks nothing.
import { act, el, field } from "./element.js";
import { stopwatch } from "./words.js";

const clockTime = moment => new Intl.DateTimeFormat("en-US", { hour: "numeric", minute: "2-digit", second: "2-digit" }).format(new Date(moment));

export function showStop(sheet, practice) {
  const from = practice.stops.at(-1).at;
  const figures = el("p", { class: "stop-time", role: "timer" }, stopwatch(sheet.clock.now() - from));
  const timer = setInterval(() => {
    if (!figures.isConnected) return clearInterval(timer);
    figures.textContent = stopwatch(sheet.clock.now() - from);
  }, 250);
  const startedAt = Date.parse(practice.startedAt) + from;
  sheet.place.replaceChildren(el("div", { class: "stopped" },
    el("h1", {}, "Stopped"), figures, el("p", {}, `Since ${clockTime(startedAt)}. The practice stands still.`),
    practice.card.healthPlan.length > 0
      ? el("div", { class: "health-plan" }, el("h2", {}, "Health plan"), practice.card.healthPlan.map(line => el("p", {}, line)))
      : el("p", {}, "No lines of a health plan are on this device: do as the plan says."),
    el("p", { class: "note" }, "This is no medical device: it counts seconds and shows what the team wrote. Emergency number and health plan come first."),
    el("div", { class: "acts" }, el("button", { type: "button", class: "sheet-act sheet-main", "data-scan": "main", on: { click: () => afterwards(sheet, startedAt, from) } }, "It is over"))));
}

/** Afterwards: what it was, start and end, what was done, who was told. */
function afterwards(sheet, startedAt, from) {
  const until = sheet.clock.now();
  const span = `From ${clockTime(startedAt)} to ${clockTime(startedAt + until - from)}`;
  const [what, done, told] = ["what", "done", "told"].map(name => el("textarea", { name, rows: 2, maxlength: 900 }));
  const save = async then => {
    await sheet.perform({ kind: "stopTold", what: `${span}${what.value ? `: ${what.value}` : ""}`, done: done.value, told: told.value });
    await sheet.perform(then);
  };
  sheet.place.replaceChildren(el("form", { class: "stopped", on: { submit: event => event.preventDefault() } },
    el("h1", {}, "Afterwards"), el("p", {}, `${span}, ${stopwatch(until - from)}.`),
    field("What it was", what), field("What was done", done), field("Who was told", told),
    el("div", { class: "acts" },
      act("End the practice here", () => save({ kind: "end" }), { class: "act main", "data-scan": "main" }),
      act("Go on with the routine", () => save({ kind: "resume" }), { "data-scan": "act" }),
      act("It is not over: back", () => showStop(sheet, sheet.practice), { class: "act plain", "data-scan": "act" }))));
  what.focus();
}
