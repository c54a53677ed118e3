// What filled the hour beside practice: minutes of each, said at the end of a practice or with the visit's log.
import { el, field } from "./element.js";
import { fillings } from "./words.js";

/** @param list of { kind, minutes }, of which a kind may stand there more than once @returns minutes by kind */
export function minutesOf(list) {
  const minutes = new Map();
  for (const { kind, minutes: n } of list) minutes.set(kind, (minutes.get(kind) ?? 0) + n);
  return minutes;
}

/** What lasted some minutes, as it is recorded. @param minutes by kind */
export const filledOf = minutes => [...minutes].filter(([, n]) => n > 0).map(([kind, n]) => ({ kind, minutes: n }));

/** @param minutes by kind; follows what is typed */
export const filledFields = minutes => el("div", { class: "fields" }, fillings.map(([kind, label]) => field(`${label}, minutes`,
  el("input", { type: "number", min: 0, max: 720, inputmode: "numeric", value: minutes.get(kind) ?? "", on: { input: e => minutes.set(kind, Number(e.target.value)) } }))));
