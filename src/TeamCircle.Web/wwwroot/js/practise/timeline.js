// One trial while it happens: what has been tapped, how long the learner was left to answer, and whether a prompt is due.
// The server reads the same events again for its figures; here they only drive the screen.

/** "About five seconds ago": so much earlier it happened, as far as the event before it leaves room. */
export const lateTap = 5000;

export function newTrial(id, step, atOnce) {
  return { id, step, atOnce, counts: true, interrupted: false, events: [] };
}

/** Milliseconds of silence before a prompt; null where the team has agreed none: then no prompt ever falls due by itself. */
export function waitBefore(content, step, prompt) {
  if (content.procedure === "simultaneous") return 0;
  const seconds = step.waitSeconds ?? prompt?.waitSeconds ?? content.waitSeconds;
  return seconds == null ? null : seconds * 1000;
}

/** The events at the times at which they happened. */
function happened(events) {
  const list = [];
  for (const event of events)
    list.push({ ...event, at: event.late ? Math.max(list.at(-1)?.at ?? 0, event.at - lateTap) : event.at });
  return list;
}

/** Silence since the cue or the last prompt: it stands still while the learner tries, and from the response on. */
function silence(events, now) {
  let waited = 0, since = null;
  const stand = at => { if (since !== null) waited += at - since; since = null; };
  for (const { kind, at, response } of events) {
    if (kind === "cueEnded" || kind === "prompt") [waited, since] = [0, at];
    else if (kind === "stoppedTrying") { stand(at); since = at; }
    else if (kind === "response" && response === "somethingElse") { stand(at); since = at; }
    else stand(at);
  }
  return since === null ? waited : waited + Math.max(0, now - since);
}

const phases = { cueEnded: "waiting", prompt: "waiting", stoppedTrying: "waiting", begun: "begun", response: "responded", refusal: "over", end: "over" };

/**
 * How a trial stands.
 * @param now milliseconds since the practice began
 * @returns phase: before (no cue yet), waiting, begun (the learner tries), responded, over; waited; wait (null: none agreed);
 *   next: the prompt that comes next, null where all were given; isDue: whether it should be given now
 */
export function stateOf(trial, content, step, now) {
  const events = happened(trial.events);
  const last = events.at(-1);
  const given = events.filter(e => e.kind === "prompt").length;
  const next = content.prompts?.[given] ?? null;
  const phase = last === undefined ? "before" : phases[last.kind];
  const wait = trial.atOnce && given === 0 ? 0 : waitBefore(content, step, next);
  const waited = silence(events, now);
  return { phase, given, next, wait, waited, response: last?.response ?? null, isDue: phase === "waiting" && next !== null && wait !== null && waited >= wait };
}
