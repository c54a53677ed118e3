// Whose device is it: a PIN, a device that is not set up yet, or a PIN that was forgotten.
import * as doors from "./doors.js";
import { act, el, field } from "./element.js";
import { pinProblem } from "./keys.js";
import { ask, post } from "./sync.js";
import { waitingBehind } from "./store.js";
import { count } from "./words.js";

const signIn = words => el("a", { class: "act", href: "/sign-in?then=%2Fpractise" }, words);

export async function showDoor(app, place, opened, chosen = null, isNewPin = false) {
  const list = await doors.all();
  const person = app.heard?.person ?? null;
  const again = (door, newPin = false) => showDoor(app, place, opened, door, newPin);
  const mine = person && list.find(d => d.person === person.id);
  const door = chosen ?? mine ?? (person ? null : list.at(-1)) ?? null;
  place.replaceChildren(el("div", { class: "head" }, el("h1", {}, "Practise")), ...await parts());

  async function parts() {
    const others = list.filter(d => d !== door && d.store !== door?.store);
    const switching = others.length > 0 && el("section", { class: "part" }, el("h2", {}, "Somebody else"),
      el("div", { class: "acts" }, others.map(d => act(`Open as ${d.initials}`, () => again(d)))));
    if (!door) return [person ? enrol() : noDoor(), switching].filter(Boolean);
    const signedIn = person?.id === door.person;
    const body = signedIn && (isNewPin || !door.wrapped) ? newPin(door) : door.wrapped ? pin(door, signedIn) : await closed(door);
    const enrolToo = person && !mine && el("section", { class: "part" }, el("h2", {}, `You are signed in as ${person.initials}`),
      act("Set up this device for me", () => place.replaceChildren(enrol())));
    return [body, enrolToo, switching].filter(Boolean);
  }

  function noDoor() {
    return el("section", { class: "part" }, el("h2", {}, "Not set up yet"), el("div", {},
      el("p", {}, "To practise with no network, this device has to be set up once with network, by the person who will use it."),
      app.heard?.signedOut ? signIn("Sign in") : app.heard?.notStaff ? el("p", {}, "These pages are for the staff of a learner's team.") : el("p", {}, "There is no answer from the portal now. Open this page again where there is network.")));
  }

  async function closed(one) {
    const waiting = await waitingBehind(one);
    return el("section", { class: "part" }, el("h2", {}, `Closed for ${one.initials}`), el("div", {},
      el("p", {}, `Nothing can be read here until ${one.initials} signs in with network.`),
      (waiting.operations > 0 || waiting.isPractising) && el("p", {}, `Not sent yet, and safe: ${count(waiting.operations, "record")}${waiting.isPractising ? " and a practice that was going on" : ""}.`),
      app.heard?.signedOut || app.heard?.person ? signIn("Sign in") : null));
  }

  function pin(one, signedIn) {
    const input = pinInput("current-password");
    const problem = el("p", { class: "problem", role: "alert", hidden: true });
    const open = async event => {
      event.preventDefault();
      // Where a try can't be counted for want of room, it is not made.
      const tried = await app.guard(() => doors.tryPin(one.store, input.value));
      if (!tried) return;
      const { key, door: now } = tried;
      if (key) {
        await app.open(now, key);
        await opened();
      } else if (!now?.wrapped) {
        await again(now ?? one);
      } else {
        problem.textContent = `That is not the PIN. ${count(doors.mostWrongPins - now.wrong, "try").replace("trys", "tries")} left; then only a sign-in with network opens.`;
        problem.hidden = false;
        input.value = "";
        input.focus();
      }
    };
    return el("form", { on: { submit: open } }, el("p", {}, `This device is ${one.initials}'s.`), field("PIN", input), problem,
      el("div", { class: "acts" }, el("button", { class: "act main" }, "Open"),
        signedIn ? act("I forgot the PIN", () => again(one, true), { class: "act plain" }) : el("a", { class: "act plain", href: "/sign-in?then=%2Fpractise" }, "I forgot the PIN: sign in")));
  }

  function newPin(one) {
    return pinForm("Choose a new PIN", "Nothing is lost: the portal keeps a copy of the key.", "Open", async value => {
      const { body } = await ask(`/device/key?device=${one.device}`);
      if (typeof body?.key !== "string") return "The portal does not answer, or no longer gives the key for this device.";
      const { door: now, key } = await doors.setUp({ ...body, device: one.device, store: one.store }, person, value);
      await app.open(now, key);
      await opened();
      return null;
    });
  }

  function enrol() {
    const name = el("input", { type: "text", value: "My tablet", maxlength: 60, required: true, autocomplete: "off" });
    const locked = el("input", { type: "checkbox", required: true });
    const form = pinForm(`Set up this device for ${person.initials}`, null, "Set up", async value => {
      const { body } = await post("/device/enrol", app.heard.token, { name: name.value });
      if (typeof body?.device !== "string") return "The portal does not answer. Nothing was set up; try again with network.";
      const isKept = await navigator.storage?.persist?.() ?? false;
      const { door: now, key } = await doors.setUp(body, person, value);
      await app.open(now, key);
      await opened(isKept ? "Set up. This browser keeps what is stored here until it is taken off."
        : "Set up. This browser may remove what is stored when the device is short of room: send what you record the same day.");
      return null;
    });
    form.querySelector("h2").after(keptWords());
    form.querySelector(".field").before(field("Name of the device", name, "So that you find it again in your account, for example if it is lost."));
    form.querySelector(".acts").before(el("div", { class: "field" }, el("label", { class: "check" }, locked, " This device is encrypted and locks its screen. Both are required.")));
    return form;
  }

  function keptWords() {
    return el("ul", {},
      el("li", {}, "Kept here: what today's and tomorrow's visits need, with a short code in place of the learner's name. All of it is sealed; the PIN opens it."),
      el("li", {}, "It goes when you sign out, and seven days after the last contact with the portal. What was recorded and not sent stays, sealed, until you sign in again."),
      el("li", {}, "Lost the device? Revoke it in your account: at its next contact everything on it goes. The PIN stops a person who has it in hand, not one who copies its disk: therefore encryption and a lock screen."));
  }

  function pinForm(title, words, done, submit) {
    const first = pinInput("new-password"), second = pinInput("new-password");
    const problem = el("p", { class: "problem", role: "alert", hidden: true });
    const say = text => { problem.textContent = text; problem.hidden = text === null; };
    const button = el("button", { class: "act main" }, done);
    return el("form", { class: "part-of", on: { submit: async event => {
      event.preventDefault();
      say(pinProblem(first.value) ?? (first.value === second.value ? null : "The two are not the same."));
      if (!problem.hidden) return;
      button.disabled = true;
      say(await submit(first.value));
      button.disabled = false;
    } } }, el("h2", {}, title), words && el("p", {}, words), field("PIN", first, "Six digits or more."), field("PIN once more", second), problem, el("div", { class: "acts" }, button));
  }
}

const pinInput = autocomplete => el("input", { type: "password", inputmode: "numeric", autocomplete, required: true, minlength: 6, maxlength: 20 });
