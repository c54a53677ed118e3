// How the sheet looks and which keys work it: chosen by whoever uses this device.
import { act, choices, el } from "./element.js";
import { wipe } from "./store.js";
import { count } from "./words.js";

export async function showSettings(app, place) {
  const { settings } = app;
  const keep = event => {
    const { name, value } = event.target;
    void app.keepSettings({ [name]: name === "black" ? value === "true" : name === "scanSeconds" ? Number(value) : value })
      .then(() => document.documentElement.classList.toggle("light", app.settings.look === "light"));
  };
  place.replaceChildren(
    el("div", { class: "head" }, el("p", {}, el("a", { href: "#/" }, "Today")), el("h1", {}, "How the sheet looks")),
    el("form", { on: { change: keep, submit: event => event.preventDefault() } },
      choices("Acts stand on the edge of the free hand", "edge", [["right", "Right"], ["left", "Left"]], settings.edge),
      choices("The end of the wait", "end", [["mark", "A mark that steps once a second"], ["vibration", "A short vibration of this device"], ["nothing", "Nothing"]], settings.end),
      choices("While waiting", "black", [["false", "Words, dim"], ["true", "Black screen with one dim mark"]], String(settings.black)),
      choices("Ground", "look", [["dark", "Dark"], ["light", "Light"]], settings.look),
      keyField(app, "learnerKey", "The learner's own switch", "pedalKey"),
      keyField(app, "pedalKey", "A pedal or switch of the adult", "learnerKey"),
      choices("The adult's pedal", "pedal", [["main", "Does the largest act"], ["scan", "Chooses in turn: the acts are marked one after the other"]], settings.pedal),
      choices("In turn, each", "scanSeconds", [["1", "1 second"], ["2", "2 seconds"], ["4", "4 seconds"]], String(settings.scanSeconds))),
    offDevice(app));
}

/** A key is learned by pressing it. The learner's and the adult's are never the same. */
function keyField(app, name, label, other) {
  const status = el("p", { role: "status" });
  const say = () => { status.textContent = app.settings[name] ? `Key: ${app.settings[name]}` : "No key chosen."; };
  const learn = () => {
    status.textContent = "Press it now. Escape leaves it as it was.";
    addEventListener("keydown", async event => {
      event.preventDefault();
      event.stopImmediatePropagation();
      if (event.key === "Escape") return say();
      if (event.code === app.settings[other]) {
        status.textContent = "This key belongs to the other one. They are never the same.";
        return;
      }
      await app.keepSettings({ [name]: event.code });
      say();
    }, { capture: true, once: true });
  };
  say();
  return el("fieldset", { class: "field" }, el("legend", {}, label), status,
    el("div", { class: "acts" }, act("Choose the key", learn), act("No key", async () => { await app.keepSettings({ [name]: null }); say(); }, { class: "act plain" })));
}

function offDevice(app) {
  const question = el("div", { hidden: true });
  const ask = async () => {
    const { operations, isPractising } = await app.waiting();
    question.replaceChildren(
      el("p", {}, operations > 0 || isPractising ? `${count(operations, "record")} not sent yet${isPractising ? ", and a practice that is going on" : ""}: that stays, sealed and unreadable, until you sign in here again. The rest goes.` : "Everything was sent. All of it goes."),
      act("Take it off", async () => {
        const { door } = app;
        app.close();
        await wipe(door);
        app.go("#/");
      }));
    question.hidden = false;
  };
  return el("section", { class: "part" }, el("h2", {}, "Take everything off this device"), el("div", {},
    el("p", {}, "Signing out of the portal does the same."), el("div", { class: "acts" }, act("Take it off this device", ask)), question));
}
