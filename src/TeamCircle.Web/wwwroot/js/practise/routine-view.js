// Before a practice: may it be practised now, what to mind, how things stand. Then the sheet; or the practice that was going on.
import { act, el, field } from "./element.js";
import { conditionsOf, conditionsStrip } from "./conditions.js";
import { cautionsOf, gateOf, holdWords } from "./gate.js";
import { newId } from "./ids.js";
import { readCode } from "./observer-code.js";
import { practiceOf } from "./practice.js";
import { Sheet } from "./sheet.js";
import { showFillIn } from "./fill-in-view.js";
import { atTime, onDay, together } from "./words.js";

/** One tab at a time has the sheet of a person: two would write into one practice. */
function holdSheet(store) {
  return new Promise(resolve => {
    void navigator.locks.request(`practise-sheet-${store.name}`, { ifAvailable: true }, lock => {
      if (!lock) return resolve(null);
      return new Promise(release => resolve(release));
    });
  });
}

export async function showRoutine(app, place, { id, query }) {
  const release = await holdSheet(app.store);
  if (!release) return say(place, "The practice sheet is open in another tab of this device.");
  const acts = await app.store.acts();
  const going = practiceOf(acts);
  if (going && going.routine !== Number(id)) {
    release();
    return say(place, "Another practice is going on.", el("a", { class: "act", href: `#/routine/${going.routine}` }, "Go to it"));
  }
  if (going) {
    const sheet = new Sheet(app, place, going.card, acts);
    await sheet.reopen();
    return () => { sheet.leave(); release(); };
  }
  const found = app.bundle?.routines.find(r => r.id === Number(id));
  if (!found) {
    release();
    return say(place, "This routine is not on this device.");
  }
  const visit = query.get("visit");
  return before(app, place, { ...found, service: app.bundle.visits.find(v => v.id === visit)?.serviceId }, visit, release);
}

function say(place, text, more) {
  place.replaceChildren(el("h1", {}, "Practise"), el("p", {}, text), el("div", { class: "acts" }, more, el("a", { class: "act plain", href: "#/" }, "Today")));
}

async function before(app, place, routine, visit, release) {
  let sheet = null, isBegun = false, isLeft = false, shown = null;
  const conditions = conditionsOf(routine.content);
  const gate = () => gateOf(routine, {
    holds: app.checked.holds, checkedAt: app.checked.at ?? 0, contactHours: app.checked.contactHours, now: app.skew.now(), today: app.bundle.today,
  });
  const draw = async () => {
    const now = gate();
    shown = JSON.stringify(now);
    const drawn = await page(app, routine, visit, now, conditions, start);
    if (!isBegun && !isLeft) place.replaceChildren(drawn); // never over the page that was asked for meanwhile
  };
  // A hold that was heard of meanwhile shows at once, but never under somebody's fingers; where nothing new was heard, what was typed stays.
  const changed = () => { if (!isBegun && JSON.stringify(gate()) !== shown && !place.querySelector(":is(input, form):focus-within")) void draw(); };
  const start = async (atOnce, isRemembered, observesCode) => {
    isBegun = true;
    const begun = { ...startOf(app, routine, visit, conditions, atOnce), observesCode };
    await keepSeen(app, routine);
    if (isRemembered) return showFillIn(app, place, routine, begun);
    sheet = new Sheet(app, place, begun.card, []);
    await sheet.begin(begun);
  };
  place.addEventListener("changed", changed);
  await draw();
  return () => {
    isLeft = true;
    place.removeEventListener("changed", changed);
    sheet?.leave();
    release();
  };
}

/** All that a practice needs to be gone on with later, also when the next day's bundle no longer holds the routine. */
function startOf(app, routine, visit, conditions, atOnce) {
  const { content, version, learner, name, service } = routine;
  const { code, healthPlan } = app.learner(learner);
  return {
    id: newId(), routine: routine.id, version: version.id, visit, entry: "live", startedAt: new Date().toISOString(), conditions, atOnce,
    order: content.steps.map(s => s.key), card: { routine: routine.id, learner, name, code, service, content, healthPlan: (healthPlan ?? []).slice(0, 4) },
  };
}

const cautionsMark = routine => JSON.stringify(cautionsOf(routine.content));

async function keepSeen(app, routine) {
  const seen = { ...await app.store.kept("seen"), [routine.id]: cautionsMark(routine) };
  await app.guard(() => app.store.keep("seen", seen));
}

async function page(app, routine, visit, gate, conditions, start) {
  const hasSeen = (await app.store.kept("seen"))?.[routine.id] === cautionsMark(routine) || routine.cautionsSeen === routine.version.id;
  const strip = conditionsStrip(conditions, "start", (name, value) => {
    const [outer, inner] = name.split(".");
    conditions[outer] = inner ? { ...conditions[outer], [inner]: value || undefined } : value;
  });
  const atOnce = ["simultaneous", "mostToLeast"].includes(routine.content.procedure);
  const code = app.learner(routine.learner).code;
  return el("div", {},
    el("div", { class: "head" }, el("p", {}, el("a", { href: "#/" }, "Today")), el("h1", {}, `${routine.name}, ${code}`), el("p", { class: "aside" }, reviewWords(routine, gate))),
    cautions(routine, hasSeen, gate),
    gate.mayPractise
      ? el("div", {}, el("div", { class: "acts first" }, act("Begin", () => start(atOnce, false), { class: "act main" }), act("Fill in after", () => start(false, true))),
        await setUp(app, routine), el("section", { class: "part" }, el("h2", {}, "Conditions"), strip),
        observe(code => start(atOnce, false, code)))
      : el("div", {}, el("p", {}, "Minutes can still be logged."), visit && el("a", { class: "act", href: `#/visit/${visit}` }, "Log the visit's minutes")));
}

/** At a co-treatment one person practises, and a colleague scores the same trials on their own device. */
function observe(start) {
  const code = el("input", { type: "text", required: true, maxlength: 12, autocomplete: "off", autocapitalize: "characters", spellcheck: "false" });
  const problem = el("p", { class: "problem", role: "alert", hidden: true });
  const begin = event => {
    event.preventDefault();
    const read = readCode(code.value);
    if (read) return void start(read);
    problem.textContent = "The code has six letters and digits. It stands on the first person's sheet, under Second observer.";
    problem.hidden = false;
  };
  return el("section", { class: "part" }, el("h2", {}, "Second observer"), el("form", { on: { submit: begin } },
    el("p", {}, "A colleague practises, and you score the same trials here. What you score is put beside theirs and is never counted as a practice of its own."),
    field("Code on the first person's sheet", code), problem, el("div", { class: "acts" }, el("button", { class: "act" }, "Score as second observer"))));
}

function reviewWords({ review }, gate) {
  const by = review.by ? ` by ${review.by}, ${onDay(review.on)}` : "";
  return { reviewed: `Reviewed${by}.`, due: `Reviewed${by}. The review lapses soon.`, missing: "", notNeeded: "" }[review.state] + (gate.isDueSoon && review.until ? ` It holds until ${onDay(review.until)}.` : "");
}

/** In full at first use and after a change, later one line. What forbids stands first. */
function cautions(routine, hasSeen, gate) {
  const list = cautionsOf(routine.content);
  const first = [
    ...gate.reasons, gate.notCheckedSince !== null && `Not checked since ${gate.notCheckedSince ? atTime(gate.notCheckedSince) : "it was set up"}: ask before you practise.`,
    ...gate.stepsHeld.map(h => `One step is left out. ${holdWords(h)}`), ...routine.out ?? [],
  ].filter(Boolean);
  return el("section", { class: "cautions" },
    first.map(text => el("p", { class: "forbids" }, text)),
    list.length === 0 ? null : hasSeen ? el("details", {}, el("summary", {}, list.join(" ").slice(0, 90)), el("ul", {}, list.map(text => el("li", {}, text))))
      : el("div", {}, el("h2", {}, "Cautions"), el("ul", {}, list.map(text => el("li", {}, text)))),
    el("p", { class: "note" }, "The health plan, local rules and licensed practice come first. When in doubt: stop, and ask."),
    el("p", {}, el("a", { href: `#/hold/${routine.id}` }, "Set a hold")));
}

async function setUp(app, routine) {
  const { cue, say: words, position, support, light, background, side, height, distance, device, materials, finish, appliance, texture, allergies, whoFeeds, foodOrPowerNear } = routine.content;
  const facts = [
    ["Object cue", cue], ["Words to say", words], ["Position", position], ["Support", support], ["Light and background", together([light, background])],
    ["Presented", together([side, height, distance])], ["Switch", device && together([device.name, device.site, device.side, device.mount, device.measures])],
    ["Appliance", appliance && `${appliance.name}, ${appliance.kind === "timed" ? `stops after ${appliance.autoOffSeconds} s` : "runs until pressed again"}`],
    ["Materials", materials], ["Texture", texture], ["Allergies", allergies], ["Who feeds", whoFeeds], ["Food, water or power near", foodOrPowerNear], ["Finish", finish],
  ].filter(([, text]) => text);
  return el("section", { class: "part" }, el("h2", {}, "Set out"), el("div", {},
    el("dl", { class: "facts" }, facts.map(([name, text]) => [el("dt", {}, name), el("dd", {}, text)])), await pictures(app, routine)));
}

async function pictures(app, routine) {
  const list = await Promise.all((routine.pictures ?? []).map(async p => [p, await app.store.picture(p.id)]));
  return el("div", { class: "pictures" }, await Promise.all(list.filter(([, blob]) => blob).map(async ([p, blob]) => el("img", { src: await dataOf(blob), alt: p.words ?? "" }))));
}

const dataOf = blob => new Promise(resolve => {
  const reader = new FileReader();
  reader.onload = () => resolve(reader.result);
  reader.readAsDataURL(blob);
});
