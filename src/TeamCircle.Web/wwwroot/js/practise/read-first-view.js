// What whoever stands in reads before anything else, also with no network: cautions and health plan, signals, how the learner is taught, what is on hold.
import { act, el } from "./element.js";
import { holdWords } from "./gate.js";

export function showReadFirst(app, place, { id }) {
  const learner = app.learner(Number(id));
  if (!learner) {
    place.replaceChildren(el("h1", {}, "Read first"), el("p", {}, "This learner is not on this device."), el("p", {}, el("a", { href: "#/" }, "Today")));
    return;
  }
  const holds = app.checked.holds.filter(hold => hold.learner === learner.id);
  const done = () => {
    app.readFirst.add(learner.id);
    app.go("#/", "Say so in the portal too, once there is network: it is noted there.");
  };
  place.replaceChildren(...[
    el("div", { class: "head" }, el("p", {}, el("a", { href: "#/" }, "Today")), el("h1", {}, `Read first: ${learner.code}`),
      el("p", { class: "aside" }, "The health plan, local rules and licensed practice come first. When in doubt: stop, and ask.")),
    holds.length > 0 && part("Holds", holds.map(hold => el("p", { class: "forbids" }, holdWords(hold)))),
    part("Cautions and health plan", lines(learner.healthPlan ?? [])),
    part(`What ${learner.code} says, and how`, pairs(learner.signals ?? [])),
    part("How we teach", pairs((learner.teach ?? []).filter(t => t.means !== "cautions" && t.means !== "health plan"))),
    learner.readFirst && el("div", { class: "acts" }, act("I have read this", done, { class: "act main" })),
  ].filter(Boolean));
}

const part = (title, ...rest) => el("section", { class: "part" }, el("h2", {}, title), el("div", {}, ...rest));

const unwritten = () => el("p", { class: "empty" }, "Nothing is written yet: ask before you begin.");

const lines = words => words.length > 0 ? words.map(line => el("p", {}, line)) : unwritten();

const pairs = said => said.length > 0 ? el("dl", { class: "facts" }, said.flatMap(({ means, words }) => [el("dt", {}, begin(means)), el("dd", { class: "written" }, words)])) : unwritten();

const begin = words => words.charAt(0).toUpperCase() + words.slice(1);
