// Two keys that are never mixed: the learner's own switch, and a pedal or switch of the adult. Each comes from an adapter that sends a key.

const isTyping = () => ["INPUT", "TEXTAREA", "SELECT"].includes(document.activeElement?.tagName);

/**
 * @param keys { learnerKey, pedalKey } codes of keys, null where none was chosen
 * @param on { learner(), pedal() } told of each closure; a key that is held down is one closure
 * @returns stops listening
 */
export function listenToKeys(keys, on) {
  const take = event => {
    if (isTyping() || event.code === "") return;
    const told = event.code === keys.learnerKey ? on.learner : event.code === keys.pedalKey ? on.pedal : null;
    if (!told) return;
    // Else the browser would press whatever has the focus, in the learner's name.
    event.preventDefault();
    event.stopImmediatePropagation();
    if (event.type === "keydown" && !event.repeat) told();
  };
  addEventListener("keydown", take, true);
  addEventListener("keyup", take, true);
  return () => {
    removeEventListener("keydown", take, true);
    removeEventListener("keyup", take, true);
  };
}
