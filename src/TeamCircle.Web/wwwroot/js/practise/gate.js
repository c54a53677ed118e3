// Whether a routine may be practised now, and what has to be said first. The server decides again when it is sent.

/** Whether somebody's body is moved or held in it. */
export function touches(content) {
  return Boolean(content.position || content.support || content.prompts?.some(p => p.physical)
    || content.cautions?.some(c => ["positioning", "physicalAssistance"].includes(c.kind)));
}

/** What to mind, in full. */
export function cautionsOf({ cautions, flashing, seizuresAsked }) {
  return [...(cautions ?? []).map(c => c.text), flashing && `Something flashes, flickers or turns in the light. Asked about seizures: ${seizuresAsked ?? "not yet: ask before you practise."}`].filter(Boolean);
}

/**
 * Holds that lie on the routine, on one of its steps, on a part of how the learner is taught that it uses, or on the service at whose visit it is practised.
 * @param routine with `service`, the number of that service
 */
export function holdsOn(routine, holds) {
  return holds.filter(h => h.learner === routine.learner && (h.services ? h.services.includes(routine.service) : h.routine == null || h.routine === routine.id)
    && (h.step == null || routine.content.steps.some(s => s.key === h.step)));
}

/** Holds on the service of a visit. */
export const holdsAt = (visit, holds) => holds.filter(h => h.learner === visit.learner && h.services?.includes(visit.serviceId));

export const holdWords = hold => `Hold, told by ${hold.toldBy}: ${hold.reason}`;

/**
 * @param checkedAt when the server was last heard about this learner's routines; milliseconds by the server's clock
 * @param now the same clock
 * @returns mayPractise; reasons why not, in words; notCheckedSince: null where nobody need ask; stepsHeld: holds on single steps
 */
export function gateOf(routine, { holds, checkedAt, contactHours, now, today }) {
  const { content, review } = routine;
  const own = holdsOn(routine, holds);
  const whole = own.filter(h => h.step == null);
  const lapsed = review.state === "missing" || review.until != null && review.until < today;
  const reasons = [
    ...whole.map(holdWords),
    ...(lapsed && review.state !== "notNeeded" ? ["Not reviewed: do not practise."] : []),
  ];
  const isStale = touches(content) && now - checkedAt > contactHours * 60 * 60 * 1000;
  return { mayPractise: reasons.length === 0, reasons, notCheckedSince: isStale ? checkedAt : null, stepsHeld: own.filter(h => h.step != null), isDueSoon: review.state === "due" };
}
