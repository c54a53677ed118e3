// Today and tomorrow: the visits on this device, what to practise at each, and what waits to be sent.
import { act, el, keepDrawn } from "./element.js";
import { holdsAt, holdWords } from "./gate.js";
import { atTime, clockTime, count, onDay, span } from "./words.js";

const worthSaying = 5 * 60_000; // milliseconds by which a tablet's clock may be wrong before anybody is told

export async function showToday(app, place) {
  return keepDrawn(place, async () => [
    el("div", { class: "head" }, el("h1", {}, "Practise"), el("p", { class: "links practise-links" },
      app.bundle?.services?.length > 0 && el("a", { href: "#/visit/new" }, "Log a visit that nobody had scheduled"), el("a", { href: "#/waiting" }, "What waits to be sent"), el("a", { href: "#/settings" }, "How the sheet looks"),
      el("a", { href: "/" }, "The portal"), act("Lock", () => { app.close(); void app.show(); }, { class: "plain" }))),
    ...await parts(app)]);
}

async function parts(app) {
  const waiting = await app.waiting();
  const about = el("section", { class: "part" }, el("h2", {}, "This device"), el("ul", { class: "plain-list" }, linesAbout(app, waiting).map(text => el("li", {}, text))));
  if (!app.bundle) return [about, el("section", { class: "part" }, el("h2", {}, "Visits"), el("p", { class: "empty" }, "Nothing is on this device yet: it comes with the next contact, signed in and with network."))];
  const { today, tomorrow } = app.bundle;
  // What came yesterday and has heard of nothing since does not call yesterday today.
  const here = app.here().day, words = day => day === here ? "Today" : day > here ? "Tomorrow" : "Before today";
  return [dayPart(app, words(today), today), dayPart(app, words(tomorrow), tomorrow), probes(app), about].filter(Boolean);
}

function linesAbout(app, { operations, isPractising }) {
  const { checked, bundle, skew } = app;
  return [
    isPractising && "A practice is going on.",
    operations > 0 ? `${count(operations, "record")} not sent yet.` : "Everything was sent.",
    checked.at === null ? "No contact with the portal so far." : `Last contact with the portal: ${atTime(checked.at)}.`,
    app.heard?.signedOut && "You are not signed in: sign in to send.",
    app.state === "notYours" && "Somebody else is signed in to the portal: what is yours waits until you sign in.",
    app.state === "otherFormat" && "These pages and the portal are of different versions. Close and open them with network; nothing is lost.",
    bundle && `What is here stays until ${atTime(bundle.expires)}${staysOn(bundle, checked) ? ", and a week longer after each contact" : ": as long as you stand in"}.`,
    skew.ms !== null && Math.abs(skew.ms) > worthSaying && `This device's clock is ${span(skew.ms)} ${skew.ms > 0 ? "ahead of" : "behind"} the portal's. What is recorded is put right by as much; set the clock when you can.`,
  ].filter(Boolean);
}

/** What is here for somebody who stands in goes with their last day, whatever contact there is. */
const staysOn = (bundle, checked) => checked.at === null || Date.parse(bundle.expires) - checked.at > 6 * 24 * 3_600_000;

function dayPart(app, words, day) {
  const visits = app.bundle.visits.filter(v => v.day === day).sort((a, b) => a.start.localeCompare(b.start));
  return el("section", { class: "part" }, el("h2", {}, `${words}, ${onDay(day)}`),
    visits.length === 0 ? el("p", { class: "empty" }, "No visits.") : el("ol", { class: "rows" }, visits.map(v => visitRow(app, v))));
}

function visitRow(app, visit) {
  const learner = app.learner(visit.learner);
  const planned = visit.routines.map(id => app.bundle.routines.find(r => r.id === id)).filter(Boolean);
  const others = app.bundle.routines.filter(r => r.learner === visit.learner && !planned.includes(r));
  const readFirst = el("a", { class: "act", href: `#/read-first/${visit.learner}` }, "Read first", el("span", { class: "unseen" }, `: ${learner?.code}`));
  const mustRead = app.mustReadFirst(visit.learner);
  const practise = routine => el("li", {}, el("a", { class: "act", href: `#/routine/${routine.id}?visit=${visit.id}` }, `Practise: ${routine.name}`));
  return el("li", {},
    el("span", { class: "lead figure" }, clockTime(visit.start)),
    el("span", { class: "what" }, el("span", {}, learner?.code ?? ""), el("span", { class: "aside" }, [visit.service, visit.place, `${visit.minutes} minutes`].filter(Boolean).join(", ")),
      holdsAt(visit, app.checked.holds).map(hold => el("span", { class: "forbids" }, `${holdWords(hold)} Minutes can still be logged.`)),
      mustRead ? el("span", { class: "aside" }, "Read first how the learner is taught: then the log and the routines open.") : el("a", { href: `#/read-first/${visit.learner}` }, "How we teach, cautions, signals", el("span", { class: "unseen" }, ` of ${learner?.code}`)),
      !mustRead && el("ul", { class: "acts-list" }, planned.map(practise)),
      !mustRead && others.length > 0 && el("details", {}, el("summary", {}, planned.length ? "Other routines" : "Routines"), el("ul", { class: "acts-list" }, others.map(practise)))),
    el("span", { class: "then" }, mustRead ? readFirst : el("a", { class: "act", href: `#/visit/${visit.id}` }, "Log", el("span", { class: "unseen" }, ` the visit to ${learner?.code} at ${clockTime(visit.start)}`))));
}

function probes(app) {
  const goals = (app.bundle.goals ?? []).filter(goal => !app.mustReadFirst(goal.learner));
  return goals.length > 0 && el("section", { class: "part" }, el("h2", {}, "Add a probe"), el("ul", { class: "rows plain" }, goals.map(goal =>
    el("li", {}, el("a", { href: `#/goal/${goal.id}` }, `${app.learner(goal.learner)?.code}: ${goal.words}`)))));
}
