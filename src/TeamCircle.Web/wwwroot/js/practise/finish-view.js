// The end of a practice: look over what was recorded, say what filled the hour, and give it to be sent.
import { act, el, field, select } from "./element.js";
import { filledFields, filledOf, minutesOf } from "./filled.js";
import { conditionsStrip } from "./conditions.js";
import { recordOf } from "./practice.js";
import { newId } from "./ids.js";
import { count, qualities } from "./words.js";

export function showFinish(sheet, practice) {
  const { app, place } = sheet;
  const words = new Map(practice.card.content.steps.map(s => [s.key, s.words]));
  const filled = minutesOf(practice.filled);
  const save = async event => {
    event.preventDefault();
    event.submitter.disabled = true;
    await sheet.perform({ kind: "filled", filled: filledOf(filled) });
    if (await toQueue(app, sheet.practice)) done(sheet);
    else event.submitter.disabled = false;
  };
  if (place.querySelector("form.finish")) return; // what is being typed stays
  place.replaceChildren(el("form", { class: "finish", on: { submit: save } },
    el("div", { class: "head" }, el("h1", {}, "The practice is over"), el("p", { class: "aside" }, `${practice.card.code}, ${practice.card.name}`)),
    el("section", { class: "part" }, el("h2", {}, "Look over"), el("div", {}, trials(sheet, practice, words), steps(practice, words))),
    !practice.observesCode && el("section", { class: "part" }, el("h2", {}, "What filled the hour"), filledFields(filled)),
    el("section", { class: "part" }, el("h2", {}, "Conditions"), conditionsStrip(practice.conditions, "end", (name, value) => void sheet.perform({ kind: "condition", name, value }))),
    el("div", { class: "acts" }, el("button", { class: "act main", "data-scan": "main" }, "Save the practice"),
      practice.step < sheet.steps.length && act("Go on with the practice", () => { place.replaceChildren(); void sheet.perform({ kind: "goOn" }); }, { class: "act plain", "data-scan": "act" }))));
}

async function toQueue(app, practice) {
  const record = recordOf(practice), { name, code } = practice.card;
  // What a second observer scored says nothing about their own visit: its log is not filled from it.
  const visit = practice.observesCode ? null : practice.visit;
  const label = { words: `${name}, ${code}${practice.observesCode ? ", second observer" : ""}`, visit, routine: practice.routine, endedAt: record.endedAt, filled: practice.filled };
  return app.recordPractice(newId(), record, label);
}

function done(sheet) {
  const { app } = sheet, { visit, observesCode } = sheet.practice;
  app.go(visit && !observesCode ? `#/visit/${visit}` : "#/", "The practice is recorded on this device.");
}

function trials(sheet, practice, words) {
  if (practice.trials.length === 0) return el("p", { class: "empty" }, "No trial was recorded.");
  return el("ol", { class: "rows trials" }, practice.trials.map(trial => el("li", {},
    el("span", { class: "lead" }, words.get(trial.step)), el("span", { class: "what" }, summary(trial), ...response(sheet, trial)))));
}

function summary(trial) {
  const prompts = trial.events.filter(e => e.kind === "prompt").length;
  const came = trial.events.some(e => e.kind === "response");
  const end = trial.events.some(e => e.kind === "refusal") ? "said no" : came ? "response" : trial.interrupted ? "interrupted: no time" : "no response";
  const help = prompts > 0 ? `after ${count(prompts, "prompt")}` : came && "without help";
  return el("span", {}, [end, help, !trial.counts && "does not count", trial.atOnce && "prompt at once"].filter(Boolean).join(", "));
}

function response(sheet, trial) {
  const last = trial.events.findLast(e => e.kind === "response");
  if (!last) return [];
  const change = () => void sheet.perform({ kind: "how", trial: trial.id, response: which.value || undefined, how: how.value.trim() });
  const which = select("response", [["", "not said"], ...qualities], last.response);
  const how = el("input", { type: "text", value: last.how ?? "", maxlength: 500, autocomplete: "off" });
  [which, how].forEach(input => input.addEventListener("change", change));
  return [el("div", { class: "fields" }, field("It was", which), field("How", how))];
}

function steps(practice, words) {
  const said = { asWritten: "as written", otherwise: "done differently", skipped: "left out", stopped: "stopped" };
  const list = practice.order.map(key => [words.get(key), practice.steps[key]]).filter(([, done]) => done && done.done !== "asWritten");
  return list.length > 0 && el("ul", {}, list.map(([step, done]) => el("li", {}, `${step}: ${said[done.done]}, ${done.why}`)));
}
