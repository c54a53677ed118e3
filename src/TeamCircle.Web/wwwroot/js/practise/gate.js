// Whether a routine may be practised now, and what has to be said first. The server decides again when it is sent.

const day = 24 * 60 * 60 * 1000;

/** Whether somebody's body is moved or held in it. */
export function touches(content) {
  return Boolean(content.position || content.support || content.prompts?.some(p => p.physical));
}

/** Holds that lie on the routine, on one of its steps, or on a part of how the learner is taught that it uses. */
export function holdsOn(routine, holds) {
  return holds.filter(h => h.learner === routine.learner && (h.routine == null || h.routine === routine.id)
    && (h.step == null || routine.content.steps.some(s => s.key === h.step)));
}

/**
 * @param checkedAt when the server was last heard about this learner's routines; milliseconds by the server's clock
 * @param now the same clock
 * @returns mayPractise; why not, in words; say: what is said before practising; stepsHeld: keys of steps under a hold
 */
export function gateOf(routine, { holds, checkedAt, contactHours, now, today }) {
  const { content, review } = routine;
  const own = holdsOn(routine, holds);
  const whole = own.filter(h => h.step == null);
  const lapsed = review.state === "missing" || review.until != null && review.until < today;
  const reasons = [
    ...whole.map(h => `Hold: ${h.reason} Told by ${h.toldBy}.`),
    ...(lapsed && review.state !== "notNeeded" ? ["Not reviewed: do not practise."] : []),
  ];
  const say = [];
  if (touches(content) && now - checkedAt > contactHours * 60 * 60 * 1000) say.push({ checkedAt });
  return { mayPractise: reasons.length === 0, reasons, notCheckedSince: say[0]?.checkedAt ?? null, stepsHeld: own.filter(h => h.step != null), isDueSoon: review.state === "due" };
}

export const daysUntil = (expires, now) => Math.max(0, Math.ceil((Date.parse(expires) - now) / day));
