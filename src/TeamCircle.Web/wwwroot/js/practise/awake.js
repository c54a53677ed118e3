/** Keeps the screen on while a practice is open, also after somebody looked elsewhere. @returns lets it sleep again */
export function keepAwake() {
  let lock = null, isWanted = true;
  const ask = async () => {
    if (!isWanted || document.hidden) return;
    lock = await navigator.wakeLock?.request("screen").catch(() => null) ?? null; // refused with a low battery: the sheet works all the same
  };
  document.addEventListener("visibilitychange", ask);
  void ask();
  return () => {
    isWanted = false;
    document.removeEventListener("visibilitychange", ask);
    void lock?.release();
  };
}
