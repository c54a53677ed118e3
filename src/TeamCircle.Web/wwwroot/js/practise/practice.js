// A practice is the list of acts that were stored; everything on the screen is read from them again. So nothing can be shown that
// is not stored, and what was stored is all there is to find after a reload.
import { newTrial } from "./timeline.js";

// What can be taken back. A stop, an interruption and the end stay.
const undoable = new Set(["cueEnded", "begun", "stoppedTrying", "response", "quality", "prompt", "refusal", "closure", "late",
  "discount", "otherwise", "again", "next", "atOnce", "how"]);

/** Acts without those that were taken back. */
export function standing(acts) {
  const list = [];
  for (const act of acts) {
    if (act.kind !== "undo") list.push(act);
    else if (undoable.has(list.at(-1)?.kind)) list.pop();
  }
  return list;
}

export const canUndo = acts => undoable.has(standing(acts).at(-1)?.kind);

/** The practice as its acts left it; null before there is any. The first act is its start, which holds what it began with. */
export function practiceOf(acts) {
  const list = standing(acts);
  if (list[0]?.kind !== "start") return null;
  const practice = begin(list[0]);
  for (const act of list.slice(1)) takes[act.kind](practice, act);
  return practice;
}

function begin(act) {
  const { start } = act;
  return {
    ...start, acts: 1, step: 0, trials: [], trial: null, steps: {}, unasked: [], conditions: { ...start.conditions }, stops: [],
    isStopped: false, filled: [], lastAt: 0, endedAt: null, atOnce: start.atOnce ?? false,
  };
}

/** The trial that is going on; opened by the first event of it, so that none is on record that was never presented. */
function trialOf(practice, act) {
  practice.trial ??= newTrial(act.trial, practice.order[practice.step], practice.atOnce);
  if (practice.trials.at(-1) !== practice.trial) practice.trials.push(practice.trial);
  return practice.trial;
}

function event(practice, { at, by, kind, prompt, response }) {
  const trial = practice.trial;
  trial.events.push({ at, kind, by, ...(prompt && { prompt }), ...(response && { response }) });
  practice.lastAt = at;
}

const isOver = trial => trial.events.some(e => ["response", "refusal", "end"].includes(e.kind));

/** Something came in the middle of a trial that was not over: no time in it can be trusted. */
function cut(practice, at, by) {
  if (practice.trial && !isOver(practice.trial)) practice.trial.interrupted = true;
  close(practice, at, by);
  practice.lastAt = at;
}

function close(practice, at, by) {
  const trial = practice.trial;
  if (trial && !isOver(trial)) event(practice, { at, by, kind: "end" });
  practice.trial = null;
}

const timed = (practice, act) => { trialOf(practice, act); event(practice, act); };

const takes = {
  atOnce: (p, act) => { p.atOnce = act.atOnce; },
  cueEnded: timed,
  begun: timed,
  stoppedTrying: timed,
  response: timed,
  prompt: timed,
  refusal(p, act) {
    timed(p, act);
    p.steps[p.order[p.step]] = { done: "stopped", why: "said no" };
  },
  // The learner's switch: an answer where one was asked for, and else a closure that nobody had asked for.
  closure(p, act) {
    const asked = p.trial?.events.some(e => e.kind === "cueEnded") && !p.trial.events.some(e => ["refusal", "end"].includes(e.kind))
      && p.trial.events.at(-1).kind !== "response" && !p.isStopped;
    if (asked) event(p, { ...act, kind: "response", by: "learnerSwitch" });
    else p.unasked.push(act.at);
    p.lastAt = act.at;
  },
  quality(p, act) {
    const response = lastResponse(p);
    if (response) response.response = act.response;
  },
  how(p, act) {
    const response = p.trials.find(t => t.id === act.trial)?.events.findLast(e => e.kind === "response");
    if (response) Object.assign(response, act.response && { response: act.response }, { how: act.how || undefined });
  },
  late(p) {
    const last = p.trials.at(-1)?.events.at(-1);
    if (last) last.late = true;
  },
  discount(p) {
    const trial = p.trial ?? p.trials.at(-1);
    if (trial) trial.counts = false;
  },
  otherwise: (p, act) => { p.steps[p.order[p.step]] = { done: act.done ?? "otherwise", why: act.why }; },
  again: (p, act) => close(p, act.at, act.by),
  next(p, act) {
    close(p, act.at, act.by);
    p.steps[p.order[p.step]] ??= { done: "asWritten" };
    p.step++;
  },
  skip(p, act) {
    close(p, act.at, act.by);
    p.steps[p.order[p.step]] = { done: "skipped", why: act.why };
    p.step++;
  },
  interrupted: (p, act) => cut(p, act.at, act.by),
  stop(p, act) {
    cut(p, act.at, act.by);
    p.stops.push({ at: act.at });
    p.isStopped = true;
  },
  stopTold: (p, act) => Object.assign(p.stops.at(-1), { what: act.what || undefined, done: act.done || undefined, told: act.told || undefined }),
  resume(p, act) {
    p.stops.at(-1).resumedAt = act.at;
    p.isStopped = false;
    p.lastAt = act.at;
  },
  condition: (p, act) => setCondition(p.conditions, act.name, act.value),
  filled: (p, act) => { p.filled = act.filled; },
  end(p, act) {
    close(p, act.at, act.by);
    p.lastAt = act.at;
    p.endedAt = act.at;
    p.isStopped = false;
  },
  goOn(p) {
    p.endedAt = null;
  },
};

function lastResponse(practice) {
  return practice.trials.at(-1)?.events.findLast(e => e.kind === "response");
}

function setCondition(conditions, name, value) {
  const [outer, inner] = name.split(".");
  if (inner) conditions[outer] = { ...conditions[outer], [inner]: value || undefined };
  else conditions[outer] = value === "" ? undefined : value;
}

/** The practice as the server reads it. Steps that nobody came to were due and are left out. */
export function recordOf(practice) {
  const from = Date.parse(practice.startedAt);
  const instant = ms => new Date(from + ms).toISOString();
  return compact({
    id: practice.id, routine: practice.routine, version: practice.version, visit: practice.visit ?? undefined, entry: practice.entry,
    startedAt: instant(0), endedAt: instant(practice.endedAt ?? practice.lastAt),
    trials: practice.trials.filter(t => t.events.length > 0 || t.remembered),
    steps: Object.entries(practice.steps).map(([step, done]) => ({ step, ...done })),
    unaskedClosures: practice.unasked, conditions: practice.conditions, stops: practice.stops, filled: practice.filled,
    observesCode: practice.observesCode ?? undefined,
  });
}

/** Without what nobody said: undefined and empty texts are left out, at every depth. Null says something: no response. */
function compact(value) {
  if (Array.isArray(value)) return value.map(compact);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined && v !== "").map(([k, v]) => [k, compact(v)]));
}
