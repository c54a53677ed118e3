// Codes of the server in the words of the glossary, and times as people say them.

export const outcomes = [["given", "Given"], ["offered", "Offered, not taken up"], ["notOffered", "Not offered"]];

export const reasons = [
  ["", "No reason"], ["learnerUnwell", "Learner unwell"], ["learnerInHospital", "Learner in hospital"], ["medicalAppointment", "Medical appointment"],
  ["learnerAsleepOrNotAlert", "Learner asleep or not alert"], ["nobodyHome", "Nobody home"], ["noAdultAtHome", "No adult at home"],
  ["illnessInTheHousehold", "Illness in the household"], ["familyAskedToMove", "Family asked to move"], ["familyAway", "Family away"],
  ["providerUnwell", "Provider unwell"], ["providerInTrainingOrMeeting", "Provider in training or meeting"], ["nobodyAssigned", "Nobody assigned"],
  ["evaluationOrMeetingInstead", "Evaluation or meeting instead"], ["equipmentOutOfOrder", "Equipment out of order"],
  ["noInterpreter", "No interpreter"], ["weatherOrEmergency", "Weather or emergency"], ["schoolClosed", "School closed"], ["unsafeToEnter", "Unsafe to enter"], ["other", "Other"],
];

export const states = [["", "not said"], ["asleep", "asleep"], ["drowsy", "drowsy"], ["quietAlert", "quiet alert"], ["activeAlert", "active alert"], ["upset", "upset"]];

export const fillings = [["warmUp", "Warm-up"], ["transfers", "Transfers"], ["positioning", "Positioning"], ["feeding", "Feeding"], ["rest", "Rest"]];

export const qualities = [["hopedFor", "hoped for"], ["somethingElse", "something else"], ["notSure", "not sure"]];

export const kinds = { practice: "practice", visit: "visit", probe: "probe", hold: "hold" };

const when = new Intl.DateTimeFormat("en-US", { weekday: "short", month: "short", day: "numeric", hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
const dayOnly = new Intl.DateTimeFormat("en-US", { weekday: "long", day: "numeric", month: "long", timeZone: "UTC" });
const partsOf = (format, moment) => Object.fromEntries(format.formatToParts(moment).map(({ type, value }) => [type, value]));

/** Wed 25 Nov, 8:57 pm, by this device's clock */
export function atTime(moment) {
  const { weekday, day, month, hour, minute } = partsOf(when, new Date(moment));
  return `${weekday} ${day} ${month}, ${clockTime(`${hour}:${minute}`)}`;
}

/** Wednesday 25 November, from 2026-11-25 */
export function onDay(date) {
  const { weekday, day, month } = partsOf(dayOnly, new Date(`${date}T00:00Z`));
  return `${weekday} ${day} ${month}`;
}

/** Several things that the team wrote, as one; null where there is none. */
export const together = parts => parts.filter(Boolean).map(text => text.replace(/\.$/, "")).join("; ") || null;

/** 9:05 am, from 09:05 */
export function clockTime(text) {
  const [hour, minute] = text.split(":").map(Number);
  return `${hour % 12 || 12}:${String(minute).padStart(2, "0")} ${hour < 12 ? "am" : "pm"}`;
}

/** 1:07 or 12:03, as a stopwatch shows it */
export const stopwatch = ms => `${Math.floor(ms / 60000)}:${String(Math.floor(ms / 1000) % 60).padStart(2, "0")}`;

/** in words, rounded to what matters */
export function span(ms) {
  const minutes = Math.round(Math.abs(ms) / 60000);
  if (minutes < 120) return `${minutes} minutes`;
  return minutes < 48 * 60 ? `${Math.round(minutes / 60)} hours` : `${Math.round(minutes / 1440)} days`;
}

export const count = (n, one) => `${n} ${one}${n === 1 ? "" : "s"}`;

const hands = { under: "hand under hand", over: "hand over hand" };

/** The words of a prompt, and below them how it touches: what is not said here must not be done. */
export const touch = prompt => prompt.physical
  ? `${hands[prompt.physical.hand]}, ${prompt.physical.part}, ${prompt.physical.side}; ${prompt.physical.stops}` : null;
