// Before signing out: says what this browser has not sent yet; at signing out takes the rest off it. The answer to the form clears
// neither, so that what was not sent stays, sealed, until its person signs in again.
import * as doors from "./doors.js";
import { contact } from "./sync.js";
import { waitingBehind, wipe } from "./store.js";
import { count } from "./words.js";

const form = document.querySelector("form[data-sign-out]"), place = document.querySelector("[data-unsent]");

const heard = await contact();
const door = heard?.person ? await doors.ofPerson(heard.person.id) : null;

if (door) {
  place.replaceChildren(words(await waitingBehind(door)));
  form.addEventListener("submit", async event => {
    event.preventDefault();
    await wipe(door);
    form.submit();
  }, { once: true });
}

function words({ operations, isPractising }) {
  const p = document.createElement("p");
  p.textContent = operations === 0 && !isPractising
    ? "What these practice pages keep on this device goes with it. Everything recorded here was sent."
    : `Not sent yet from this device: ${count(operations, "record")}${isPractising ? ", and a practice that is going on" : ""}. ${operations + isPractising === 1 ? "It stays" : "They stay"} on it, sealed and unreadable, until you sign in here again. The rest goes.`;
  return p;
}
