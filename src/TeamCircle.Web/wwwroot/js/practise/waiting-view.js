// What waits to be sent, what was sent, what was set aside and why. Nothing leaves here that the portal has not named.
import { act, el, keepDrawn } from "./element.js";
import { atTime, kinds } from "./words.js";

export async function showWaiting(app, place) {
  return keepDrawn(place, async () => [
    el("div", { class: "head" }, el("p", {}, el("a", { href: "#/" }, "Today")), el("h1", {}, "What waits to be sent"),
      el("p", { class: "aside" }, stateWords(app))), ...await parts(app)]);
}

const words = {
  sent: "Everything that could be sent was sent.", busy: "Another tab is sending now.", signedOut: "You are not signed in to the portal: it waits until you are.",
  notYours: "Somebody else is signed in to the portal. What is yours waits until you sign in.", noAnswer: "The portal does not answer. It is tried again each minute, and as soon as there is network.",
  otherFormat: "These pages and the portal are of different versions. Close these pages and open them with network; nothing is lost.",
};
const stateWords = app => app.sending ? "Sending now." : words[app.state] ?? "";

async function parts(app) {
  const [queued, ended] = [await app.store.queued(), (await app.store.ended()).reverse()];
  const of = end => ended.filter(e => e.value.end === end);
  const aside = [...of("setAside"), ...of("refused")];
  return [
    part("Waits", queued.map(({ value }) => row(value)), "Nothing waits.",
      el("div", { class: "acts" }, act("Send now", () => { void app.refresh(); app.onChange(); }), app.heard?.signedOut && el("a", { class: "act plain", href: "/sign-in?then=%2Fpractise" }, "Sign in"))),
    part("Set aside for a person", aside.map(({ at, value }) => row(value, why(value), seen(app, at))), "Nothing was set aside."),
    part("Sent", of("stored").map(({ value }) => row(value)), "Nothing was sent from this device in the last days."),
  ];
}

function part(title, rows, empty, more) {
  return el("section", { class: "part" }, el("h2", {}, title), el("div", {}, rows.length > 0 ? el("ol", { class: "rows" }, rows) : el("p", { class: "empty" }, empty), more));
}

function row({ kind, made, label }, ...more) {
  return el("li", {}, el("span", { class: "lead" }, atTime(made)), el("span", { class: "what" }, el("span", {}, label?.words ?? kinds[kind]), ...more));
}

/** Why, and what had been typed, so that it can be entered by hand. */
function why({ why: reason, end, body }) {
  return [
    el("span", { class: "aside" }, `${end === "setAside" ? "The portal keeps it whole, and a person decides." : "The portal could not read it; it is kept here only."} ${reason ?? ""}`),
    body && el("details", {}, el("summary", {}, "What was recorded"), el("pre", {}, JSON.stringify(body, null, 2))),
  ];
}

function seen(app, at) {
  return act("I have seen to it", async () => {
    await app.store.forgetEnded([at]);
    app.onChange();
  }, { class: "plain" });
}
