// Which acts there are at each moment of a step: one that is the largest, and the others in the order in which they stand on the edge.
import { qualities, touch } from "./words.js";

const act = (kind, words, more = {}) => ({ kind, words, ...more });
const saidNo = act("refusal", "Said no"), doesNotCount = act("discount", "Does not count"), differently = act("differently", "Done differently");

const helped = (state, isShown) => state.next === null ? null
  : act("prompt", "I helped", { prompt: state.next.key, under: isShown ? [state.next.words, touch(state.next)].filter(Boolean) : null });

/**
 * @param step of the routine; null after the last
 * @param state of its trial (timeline.js); null where the step asks for nothing
 * @param more hold: the one that lies on the step; hasTrials: whether the step was tried before
 */
export function actsFor(step, state, { atOnce, hold, isLast, hasTrials }) {
  const next = act("next", isLast ? "Finish" : "Next step");
  if (hold) return { main: act("skip", "Leave this step out", { why: `hold: ${hold.reason}` }), column: [] };
  if (step.kind !== "response") return { main: next, column: [differently] };
  const column = {
    before: () => [hasTrials ? next : null, act("atOnce", atOnce ? "Prompt at once: yes" : "Prompt at once: no", { atOnce: !atOnce }), saidNo, differently],
    waiting: () => [act("response", "Response"), helped(state, true) ?? act("next", `No response: ${next.words.toLowerCase()}`), saidNo, doesNotCount, differently],
    begun: () => [act("stoppedTrying", "Stopped trying"), helped(state, false), saidNo, doesNotCount, differently],
    responded: () => [
      ...state.response === null ? qualities.map(([response, words]) => act("quality", words[0].toUpperCase() + words.slice(1), { response })) : [],
      state.response === "somethingElse" ? helped(state, true) : null,
      act("again", "Once more"), doesNotCount, differently],
    over: () => [act("again", "Once more"), doesNotCount, differently],
  }[state.phase]().filter(Boolean);
  const main = { before: act("cueEnded", "The cue has ended"), waiting: act("begun", "Begun"), begun: act("response", "Response") }[state.phase] ?? next;
  return { main, column };
}
