// Opens the practice pages: finds out whose device it is, asks for the PIN, and shows what the address names.
import { App } from "./app.js";
import * as doors from "./doors.js";
import { el } from "./element.js";
import { wipe } from "./store.js";
import { keepWorker } from "./worker-update.js";
import { showDoor } from "./door-view.js";
import { showToday } from "./today-view.js";
import { showVisit } from "./visit-view.js";
import { showHold } from "./hold-view.js";
import { showReadFirst } from "./read-first-view.js";
import { showProbe } from "./probe-view.js";
import { showWaiting } from "./waiting-view.js";
import { showSettings } from "./settings-view.js";
import { showRoutine } from "./routine-view.js";

const place = document.getElementById("content"), lines = document.getElementById("lines");
const everyMinute = 60_000, patience = 3_000; // milliseconds

const app = new App(text => lines.replaceChildren(text ? el("p", {}, text) : ""));

// Each takes (app, place, parameters of the address) and gives what is to be done on leaving, or nothing.
const routes = [
  [/^#\/routine\/(\d+)$/, showRoutine], [/^#\/visit\/([0-9a-f-]{36}|new)$/, showVisit], [/^#\/goal\/(\d+)$/, showProbe],
  [/^#\/hold\/(\d+)$/, showHold], [/^#\/read-first\/(\d+)$/, showReadFirst], [/^#\/waiting$/, showWaiting], [/^#\/settings$/, showSettings], [/^/, showToday],
];

let leave = null, asked = 0, said = "", showing = Promise.resolve();

/** One after the other: a page that is still being put together must not overwrite the one that was asked for after it. */
function show() {
  const mine = ++asked;
  showing = showing.catch(() => {}).then(() => mine === asked ? change() : undefined);
  return showing;
}

async function change() {
  await leave?.();
  leave = null;
  app.tell(said);
  said = "";
  document.body.className = "";
  document.documentElement.classList.toggle("light", app.settings.look === "light");
  if (!app.store) {
    await showDoor(app, place, opened);
    return;
  }
  const [path, query] = location.hash.split("?");
  const [pattern, view] = routes.find(([p]) => p.test(path));
  leave = await view(app, place, { id: pattern.exec(path)[1], query: new URLSearchParams(query) }) ?? null;
  if (!place.contains(document.activeElement)) place.focus();
}

/** A practice that was going on when the pages were closed is the first thing that is shown. */
async function opened(words = "") {
  said = words;
  const acts = await app.store.acts();
  const going = acts.length > 0 ? `#/routine/${acts[0].start.routine}` : null;
  if (going && !location.hash.startsWith(going)) location.hash = going;
  else await show();
}

app.onChange = what => {
  if (what === "takenAway") {
    said = "This device was revoked. Everything on it is gone, except what was not sent: it stays sealed until you sign in.";
    void show();
    return;
  }
  place.dispatchEvent(new CustomEvent("changed"));
};
app.show = show;
/** To another page, on which words are said. */
app.go = (hash, words = "") => {
  said = words;
  if (location.hash === hash) void show();
  else location.hash = hash;
};

async function start() {
  for (const door of await doors.all())
    if (door.expires && Date.parse(door.expires) < Date.now()) await wipe(door);
  await Promise.race([app.ask(), new Promise(done => setTimeout(done, patience))]);
  addEventListener("hashchange", () => void show());
  addEventListener("online", () => void app.refresh());
  document.addEventListener("visibilitychange", () => { if (!document.hidden) void app.refresh(); });
  setInterval(() => { if (!document.hidden) void app.refresh(); }, everyMinute);
  keepWorker(app);
  await show();
}

await start();
