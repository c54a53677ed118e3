// Logs a visit with no network: the same few fields as the portal's own form.
import { choices, el, field, select } from "./element.js";
import { newId } from "./ids.js";
import { clockTime, onDay, outcomes, reasons } from "./words.js";

export async function showVisit(app, place, { id }) {
  const visit = app.bundle?.visits.find(v => v.id === id);
  if (!visit) {
    place.replaceChildren(el("h1", {}, "Log a visit"), el("p", {}, "This visit is not on this device."), el("p", {}, el("a", { href: "#/" }, "Today")));
    return;
  }
  const learner = app.learner(visit.learner);
  const practised = await practisedAt(app, visit);
  place.replaceChildren(
    el("div", { class: "head" }, el("p", {}, el("a", { href: "#/" }, "Today")), el("h1", {}, `Log: ${learner.code}, ${onDay(visit.day)}`),
      el("p", { class: "aside" }, `${visit.service}, ${clockTime(visit.start)}, ${visit.minutes} minutes planned`)),
    form(app, visit, practised));
}

/** What was practised at this visit on this device: its end, and which routines. */
async function practisedAt(app, visit) {
  const recorded = [...await app.store.queued(), ...await app.store.ended()].map(e => e.value);
  const own = recorded.filter(o => o.kind === "practice" && o.label.visit === visit.id).map(o => o.label);
  return { routines: own.map(l => l.routine), end: own.length > 0 ? Math.max(...own.map(l => Date.parse(l.endedAt))) : null };
}

const hourOf = (moment, zone) => new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: zone }).format(new Date(moment));

function form(app, visit, practised) {
  const routines = app.bundle.routines.filter(r => r.learner === visit.learner);
  const end = practised.end === null ? "" : hourOf(practised.end - (app.skew.ms ?? 0), app.bundle.zone);
  const save = async event => {
    event.preventDefault();
    const body = bodyOf(new FormData(event.target), visit);
    if (await app.record("visit", newId(), body, { words: `Visit to ${app.learner(visit.learner).code}, ${onDay(visit.day)}` })) app.go("#/", "The visit is recorded on this device.");
  };
  return el("form", { on: { submit: save } },
    choices("What became of it", "outcome", outcomes, "given"),
    el("div", { class: "fields" },
      field("Start", el("input", { type: "time", name: "start", value: visit.start })),
      field("End", el("input", { type: "time", name: "end", value: end }), "Leave it empty if it ended as planned.")),
    field("Reason", select("reason", reasons), "Where it was not given, or was shorter than planned."),
    routines.length > 0 && el("fieldset", { class: "field" }, el("legend", {}, "Routines that were practised"), el("div", { class: "choices" },
      routines.map(r => el("label", {}, el("input", { type: "checkbox", name: "routines", value: r.id, checked: practised.routines.includes(r.id) }), " ", r.name)))),
    field("What else was practised", el("textarea", { name: "practised", rows: 2, maxlength: 4000 })),
    field("Note for the team", el("textarea", { name: "note", rows: 2, maxlength: 4000 })),
    el("div", { class: "acts" }, el("button", { class: "act main" }, "Save"), el("a", { class: "act plain", href: "#/" }, "Do not save")));
}

function bodyOf(data, visit) {
  const text = name => data.get(name) || undefined;
  return {
    visits: [visit.id], version: visit.version, outcome: data.get("outcome"), start: text("start"), end: text("end"), reason: text("reason"),
    routines: data.getAll("routines").map(Number), practised: text("practised"), note: text("note"),
  };
}
