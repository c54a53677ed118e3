// Fill in after: one row a step, from memory. What is said so has no times, and says that it was remembered.
import { newId } from "./ids.js";
import { recordOf } from "./practice.js";

/**
 * @param start what a practice begins with (routine, version, visit, order of steps, conditions)
 * @param rows by step's key: { done, why, prompts: "" | "none" | "0"…, refused, seconds }
 */
export function rememberedPractice(start, rows, endedAt) {
  const trials = [], steps = {};
  for (const [step, row] of Object.entries(rows)) {
    if (row.done) steps[step] = { done: row.done, why: row.done === "asWritten" ? undefined : row.why };
    const trial = trialOf(step, row);
    if (trial) trials.push(trial);
  }
  return recordOf({ ...start, entry: "remembered", trials, steps, unasked: [], stops: [], filled: start.filled ?? [], lastAt: 0, endedAt });
}

function trialOf(step, row) {
  if (row.refused)
    return { id: newId(), step, atOnce: false, counts: true, interrupted: false, events: [{ at: 0, kind: "refusal", by: "screen", late: false }] };
  if (!row.prompts) return null;
  const remembered = { promptsNeeded: row.prompts === "none" ? null : Number(row.prompts), aboutSeconds: row.seconds ? Number(row.seconds) : undefined };
  return { id: newId(), step, atOnce: false, counts: true, interrupted: false, events: [], remembered };
}
