// Logs a visit with no network, one that was scheduled or not: the same few fields as the portal's own form.
import { momentIn } from "./clock.js";
import { choices, el, field, select } from "./element.js";
import { filledFields, filledOf, minutesOf } from "./filled.js";
import { holdsAt, holdWords } from "./gate.js";
import { newId } from "./ids.js";
import { clockTime, onDay, outcomes, reasons } from "./words.js";

export async function showVisit(app, place, { id }) {
  if (id === "new") return showNew(app, place);
  const visit = app.bundle?.visits.find(v => v.id === id);
  if (!visit) {
    place.replaceChildren(el("h1", {}, "Log a visit"), el("p", {}, "This visit is not on this device."), el("p", {}, el("a", { href: "#/" }, "Today")));
    return;
  }
  const { code } = app.learner(visit.learner);
  const practised = await practisedAt(app, visit), filled = minutesOf(practised.filled);
  const save = async event => {
    event.preventDefault();
    const body = { ...bodyOf(new FormData(event.target), filled), visits: [visit.id], version: visit.version };
    const against = againstTimes(body, visit.day, app.here(), { start: visit.start, minutes: visit.minutes });
    if (against) app.tell(against);
    else if (await app.record("visit", newId(), body, { words: `Visit to ${code}, ${onDay(visit.day)}` })) app.go("#/", "The visit is recorded on this device.");
  };
  // A practice that ended before the visit was to begin says nothing about when the visit ended.
  const last = practised.end === null ? "" : momentIn(app.bundle.zone, practised.end - (app.skew.ms ?? 0)).time, end = last > visit.start ? last : "";
  place.replaceChildren(head(`Log: ${code}, ${onDay(visit.day)}`, `${visit.service}, ${clockTime(visit.start)}, ${visit.minutes} minutes planned`),
    ...holdsAt(visit, app.checked.holds).map(hold => el("p", { class: "forbids" }, `${holdWords(hold)} Minutes can still be logged.`)),
    el("form", { on: { submit: save } }, outcome(), times(visit.start, end, "Leave it empty if it ended as planned."), reason(),
      routinesOf(app, visit.learner, practised.routines), rest(filled), acts()));
}

/** One that nobody had scheduled, of a learner whose visits of today or tomorrow are on this device. */
function showNew(app, place) {
  const { services = [], today } = app.bundle ?? {};
  if (services.length === 0) {
    place.replaceChildren(head("Log a visit that nobody had scheduled"), el("p", {}, "No learner's services are on this device: log it in the portal."));
    return;
  }
  const words = ({ id, learner, words: service }) => [String(id), `${app.learner(learner)?.code}: ${service}`];
  const filled = new Map(), routines = el("div", { class: "field", hidden: true });
  const service = select("service", [["", "Choose"], ...[...services].sort((a, b) => Number(b.isMine) - Number(a.isMine)).map(words)]);
  const learner = () => services.find(s => s.id === Number(service.value))?.learner;
  service.required = true;
  service.addEventListener("change", () => {
    const choice = routinesOf(app, learner(), []);
    routines.replaceChildren(choice || "");
    routines.hidden = !choice;
  });
  const save = async event => {
    event.preventDefault();
    const data = new FormData(event.target), day = data.get("onDay");
    const body = { ...bodyOf(data, filled), services: [Number(service.value)], onDay: day };
    const label = { words: `Visit to ${app.learner(learner())?.code}, ${onDay(day)}, not scheduled` };
    const against = againstTimes(body, day, app.here());
    if (against) app.tell(against);
    else if (await app.record("visit", newId(), body, label)) app.go("#/", "The visit is recorded on this device.");
  };
  place.replaceChildren(head("Log a visit that nobody had scheduled", "Learners of today's and tomorrow's visits. For others, log it in the portal."),
    el("form", { on: { submit: save } }, field("Learner and service", service), outcome(), field("Day", el("input", { type: "date", name: "onDay", value: today, max: today, required: true })),
      times("", "", null, true), reason(), routines, rest(filled), acts()));
}

/** What was practised at this visit on this device: its end, which routines, and what filled the hour. */
async function practisedAt(app, visit) {
  const recorded = [...await app.store.queued(), ...await app.store.ended()].map(e => e.value);
  const own = recorded.filter(o => o.kind === "practice" && o.label.visit === visit.id).map(o => o.label);
  return { routines: own.map(l => l.routine), end: own.length > 0 ? Math.max(...own.map(l => Date.parse(l.endedAt))) : null, filled: own.flatMap(l => l.filled ?? []) };
}

/**
 * Why the portal would set a log aside for its times; null where it would not. It says the same words.
 * @param {{ day: string, time: string }} now in the agency's zone
 * @param {{ start: string, minutes: number }} [planned] what an empty start or end means
 */
export function againstTimes({ outcome, start, end }, day, now, planned) {
  const [from, to] = [start ?? planned?.start, end ?? (planned && later(start ?? planned.start, planned.minutes))];
  if (from && to && to <= from) return "The end must come after the start. A visit over midnight is logged as two, each on its own day.";
  if (outcome === "notOffered") return null;
  if (day > now.day) return "That day is still to come. What has not happened yet cannot be logged as given or offered.";
  return to && day === now.day && to > now.time ? "That time is still to come. Log the visit when it has ended." : null;
}

const later = (time, minutes) => {
  const all = Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5)) + minutes;
  return `${String(Math.floor(all / 60)).padStart(2, "0")}:${String(all % 60).padStart(2, "0")}`;
};

const head = (title, aside) => el("div", { class: "head" }, el("p", {}, el("a", { href: "#/" }, "Today")), el("h1", {}, title), aside && el("p", { class: "aside" }, aside));

const outcome = () => choices("What became of it", "outcome", outcomes, "given");

const reason = () => field("Reason", select("reason", reasons), "Where it was not given, or was shorter than planned.");

const times = (start, end, hint, required = false) => el("div", { class: "fields" },
  field("Start", el("input", { type: "time", name: "start", value: start, required })), field("End", el("input", { type: "time", name: "end", value: end, required }), hint));

function routinesOf(app, learner, practised) {
  const routines = app.bundle.routines.filter(r => r.learner === learner);
  return routines.length > 0 && el("fieldset", { class: "field" }, el("legend", {}, "Routines that were practised"), el("div", { class: "choices" },
    routines.map(r => el("label", {}, el("input", { type: "checkbox", name: "routines", value: r.id, checked: practised.includes(r.id) }), " ", r.name))));
}

const rest = filled => [
  field("What else was practised", el("textarea", { name: "practised", rows: 2, maxlength: 4000 })),
  field("Note for the team", el("textarea", { name: "note", rows: 2, maxlength: 4000 })),
  el("details", { open: filled.size > 0 }, el("summary", {}, "What filled the hour"), filledFields(filled)),
];

const acts = () => el("div", { class: "acts" }, el("button", { class: "act main" }, "Save"), el("a", { class: "act plain", href: "#/" }, "Do not save"));

function bodyOf(data, filled) {
  const text = name => data.get(name) || undefined;
  return {
    outcome: data.get("outcome"), start: text("start"), end: text("end"), reason: text("reason"),
    routines: data.getAll("routines").map(Number), practised: text("practised"), note: text("note"), filled: filledOf(filled),
  };
}
