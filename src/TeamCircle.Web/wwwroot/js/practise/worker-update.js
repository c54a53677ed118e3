// Puts the pages' files on the device. A new version waits until no page has a practice or a form open, so that none is lost to it.

export async function keepWorker(app) {
  if (!("serviceWorker" in navigator)) return;
  const hadOne = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (hadOne && isIdle()) location.reload();
  });
  try {
    const registration = await navigator.serviceWorker.register("/practise/worker.js", { scope: "/practise", updateViaCache: "none" });
    const offer = () => { if (registration.waiting && isIdle()) registration.waiting.postMessage("take over"); };
    addEventListener("hashchange", offer);
    offer();
  } catch {
    app.tell("These pages could not be put on the device: with no network they will not open.");
  }

  // Today's list is the one page where nothing is being typed or practised.
  function isIdle() {
    return location.hash === "" || location.hash === "#/";
  }
}
