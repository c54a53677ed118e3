// Fill in after: one row a step, for a practice in which no hand was free. Everything on it is marked remembered.
import { conditionsStrip } from "./conditions.js";
import { el, field, select } from "./element.js";
import { newId } from "./ids.js";
import { rememberedPractice } from "./remembered.js";

const ways = [["asWritten", "as written"], ["otherwise", "done differently"], ["skipped", "left out"], ["stopped", "stopped"]];

export function showFillIn(app, place, routine, start) {
  const { steps, prompts } = routine.content;
  const minutes = el("input", { type: "number", min: 1, max: 720, required: true, value: 15, inputmode: "numeric" });
  const save = async event => {
    event.preventDefault();
    const data = new FormData(event.target);
    const rows = Object.fromEntries(steps.map(s => [s.key, rowOf(data, s.key)]));
    const begun = new Date(Date.parse(start.startedAt) - Number(minutes.value) * 60_000).toISOString();
    const record = rememberedPractice({ ...start, startedAt: begun }, rows, Number(minutes.value) * 60_000);
    const label = { words: `${routine.name}, ${start.card.code}, remembered`, visit: start.visit, routine: routine.id, endedAt: record.endedAt };
    if (await app.record("practice", newId(), record, label)) app.go(start.visit ? `#/visit/${start.visit}` : "#/", "The practice is recorded on this device, marked remembered.");
  };
  place.replaceChildren(
    el("div", { class: "head" }, el("h1", {}, "Fill in after"), el("p", { class: "aside" }, `${start.card.code}, ${routine.name}. What is filled in here is marked remembered and stays out of curves of time.`)),
    el("form", { class: "fill-in", on: { submit: save } },
      field("It took about, minutes", minutes),
      steps.map(step => stepRow(step, prompts ?? [])),
      el("section", { class: "part" }, el("h2", {}, "Conditions"), conditionsStrip(start.conditions, "start", (name, value) => {
        const [outer, inner] = name.split(".");
        start.conditions[outer] = inner ? { ...start.conditions[outer], [inner]: value || undefined } : value;
      })),
      el("div", { class: "acts" }, el("button", { class: "act main" }, "Save"), el("a", { class: "act plain", href: "#/" }, "Do not save"))));
}

function stepRow(step, prompts) {
  const needed = [["", "not tried"], ["0", "without help"], ...prompts.map((p, i) => [String(i + 1), `after ${i + 1}: ${p.words}`]), ["none", "no response"], ["refused", "said no"]];
  return el("fieldset", { class: "field row-of-step" }, el("legend", {}, step.words), el("div", { class: "fields" },
    field("Done", select(`done-${step.key}`, ways, "asWritten")), field("Why, if not as written", el("input", { type: "text", name: `why-${step.key}`, maxlength: 500, autocomplete: "off" })),
    step.kind === "response" && [field("Prompts needed", select(`prompts-${step.key}`, needed)), field("About how long, seconds", el("input", { type: "number", name: `seconds-${step.key}`, min: 0, max: 3600, inputmode: "numeric" }))]));
}

function rowOf(data, key) {
  const prompts = data.get(`prompts-${key}`) ?? "", refused = prompts === "refused";
  const why = data.get(`why-${key}`).trim(), done = refused ? "stopped" : data.get(`done-${key}`);
  return { done, why: why || (refused ? "said no" : "not said"), prompts: refused ? "" : prompts, refused, seconds: data.get(`seconds-${key}`) ?? "" };
}
