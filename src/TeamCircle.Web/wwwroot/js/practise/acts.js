// Which acts there are at each moment of a step: one that is the largest, and the others in the order in which they stand on the edge.
import { qualities, touch } from "./words.js";

const act = (kind, words, more = {}) => ({ kind, words, ...more });
const saidNo = act("refusal", "said no"), doesNotCount = act("discount", "does not count"), differently = act("differently", "done differently");

const helped = (state, isShown) => state.next === null ? null
  : act("prompt", "I helped", { prompt: state.next.key, under: isShown ? [state.next.words, touch(state.next)].filter(Boolean) : null });

/**
 * @param step of the routine; null after the last
 * @param state of its trial (timeline.js); null where the step asks for nothing
 * @param more hold: the one that lies on the step; hasTrials: whether the step was tried before
 */
export function actsFor(step, state, { atOnce, hold, isLast, hasTrials }) {
  const next = act("next", isLast ? "finish" : "next step");
  if (hold) return { main: act("skip", "leave this step out", { why: `hold: ${hold.reason}` }), column: [] };
  if (step.kind !== "response") return { main: next, column: [differently] };
  const column = {
    before: () => [hasTrials ? next : null, act("atOnce", atOnce ? "prompt at once: yes" : "prompt at once: no", { atOnce: !atOnce }), saidNo, differently],
    waiting: () => [act("response", "response"), helped(state, true) ?? act("next", `no response: ${next.words}`), saidNo, doesNotCount, differently],
    begun: () => [act("stoppedTrying", "stopped trying"), helped(state, false), saidNo, doesNotCount, differently],
    responded: () => [
      ...state.response === null ? qualities.map(([response, words]) => act("quality", words, { response })) : [],
      state.response === "somethingElse" ? helped(state, true) : null,
      act("again", "once more"), doesNotCount, differently],
    over: () => [act("again", "once more"), doesNotCount, differently],
  }[state.phase]().filter(Boolean);
  const main = { before: act("cueEnded", "the cue has ended"), waiting: act("begun", "begun"), begun: act("response", "response") }[state.phase] ?? next;
  return { main, column };
}
