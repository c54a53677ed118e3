// Sets a hold with no network: it blocks on this device at once, and everywhere else as soon as the portal and the others hear of it.
import { el, field, select } from "./element.js";
import { newId } from "./ids.js";

const words = [["own", "I saw or decided it myself"], ["parent", "A parent"], ["nurse", "A nurse"], ["physician", "A physician"]];

export async function showHold(app, place, { id }) {
  const routine = app.bundle?.routines.find(r => r.id === Number(id));
  if (!routine) {
    place.replaceChildren(el("h1", {}, "Set a hold"), el("p", {}, "This routine is not on this device."), el("p", {}, el("a", { href: "#/" }, "Today")));
    return;
  }
  const code = app.learner(routine.learner).code;
  const save = async event => {
    event.preventDefault();
    if (await app.recordHold(newId(), bodyOf(new FormData(event.target), routine), { words: `Hold on ${routine.name}, ${code}` }))
      app.go("#/", "The hold is set on this device. The portal hears of it at the next contact.");
  };
  const steps = [["", "The whole routine"], ...routine.content.steps.map(s => [s.key, `One step: ${s.words}`])];
  place.replaceChildren(
    el("div", { class: "head" }, el("p", {}, el("a", { href: `#/routine/${routine.id}` }, routine.name)), el("h1", {}, "Set a hold"), el("p", { class: "aside" }, `${code}, ${routine.name}`)),
    el("form", { on: { submit: save } },
      field("On", select("step", steps)),
      field("Why", el("textarea", { name: "reason", rows: 2, maxlength: 400, required: true }), "After hospital, surgery, a new chair, a new seizure pattern: what must be asked first."),
      field("On whose word", select("toldAs", words)),
      el("div", { class: "fields" },
        field("Who said so", el("input", { type: "text", name: "toldBy", maxlength: 100, autocomplete: "off" }), "Unless it is your own word."),
        field("On which day", el("input", { type: "date", name: "toldOn", value: app.bundle.today })), field("When", el("input", { type: "time", name: "toldTime" }))),
      el("div", { class: "acts" }, el("button", { class: "act main" }, "Set the hold"), el("a", { class: "act plain", href: "#/" }, "Do not set it"))));
}

function bodyOf(data, { id, learner }) {
  const isOwn = data.get("toldAs") === "own", text = name => isOwn ? undefined : data.get(name) || undefined;
  const time = text("toldTime");
  return {
    learner, routine: id, step: data.get("step") || undefined, reason: data.get("reason"), toldAs: data.get("toldAs"),
    toldBy: text("toldBy"), toldOn: text("toldOn"), toldTime: time && `${time}:00`,
  };
}
