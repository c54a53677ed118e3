// Adds a probe with no network.
import { choices, el, field, select } from "./element.js";
import { newId } from "./ids.js";
import { states } from "./words.js";

// What is to be typed as the value, as the portal's own form says it.
const hints = {
  percentIndependent: "Percent without help, 0 to 100.", responsesOf: "How many responses there were.",
  averagePromptsNeeded: "Prompts needed on average; no response counts one more than there are prompts.",
  timeToRespond: "In seconds.", duration: "In seconds.", rate: "Responses a minute.", ownScale: "On the team's own scale.",
};

const kinds = [["probe", "Probe: first chance of the day, no prompt"], ["teaching", "Teaching data"]];

export async function showProbe(app, place, { id }) {
  const goal = app.bundle?.goals.find(g => g.id === Number(id));
  if (!goal) {
    place.replaceChildren(el("h1", {}, "Add a probe"), el("p", {}, "This goal is not on this device."), el("p", {}, el("a", { href: "#/" }, "Today")));
    return;
  }
  const save = async event => {
    event.preventDefault();
    const data = new FormData(event.target), number = name => data.get(name) === "" ? undefined : Number(data.get(name));
    const body = { goalId: goal.id, onDay: data.get("onDay"), value: number("value"), opportunities: number("opportunities"), kind: data.get("kind"),
      ...Object.fromEntries(["conditions", "state", "position", "side", "place"].map(name => [name, data.get(name) || undefined])) };
    if (await app.record("probe", newId(), body, { words: `Probe for ${app.learner(goal.learner)?.code}` })) app.go("#/", "The probe is recorded on this device.");
  };
  place.replaceChildren(
    el("div", { class: "head" }, el("p", {}, el("a", { href: "#/" }, "Today")), el("h1", {}, "Add a probe"), el("p", { class: "aside" }, goal.words)),
    el("form", { on: { submit: save } },
      field("Day", el("input", { type: "date", name: "onDay", value: app.bundle.today, required: true })),
      el("div", { class: "fields" },
        field("Value", el("input", { type: "number", name: "value", step: "any", min: 0, required: true, inputmode: "decimal" }), hints[goal.measure] ?? "How many there were."),
        field("Opportunities", el("input", { type: "number", name: "opportunities", min: 1 }), "Trials presented.")),
      choices("Kind", "kind", kinds, "probe"),
      el("details", {}, el("summary", {}, "More: state, position, side, where"),
        field("State at the start", select("state", states)),
        ["position", "side", "place"].map((name, i) => field(["Position", "Presented on which side", "Where"][i], el("input", { type: "text", name, maxlength: 100 })))),
      field("Conditions", el("textarea", { name: "conditions", rows: 2, maxlength: 1000 }), "Light, position, place, what was shown."),
      el("div", { class: "acts" }, el("button", { class: "act main" }, "Save"), el("a", { class: "act plain", href: "#/" }, "Do not save"))));
}
