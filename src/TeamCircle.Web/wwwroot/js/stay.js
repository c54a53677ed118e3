// Says five minutes before an idle sign-in ends that it does, beside what is being typed, and goes on with it where that is asked for.
// A page that another tab opens goes on with it too: the tabs tell each other.
const ahead = 5 * 60_000, glance = 15_000;
const bar = document.querySelector("[data-ends]"), [soon, over] = bar.querySelectorAll("p"), stay = bar.querySelector("button");
const span = Number(bar.dataset.ends) * 60_000;
const tabs = new BroadcastChannel("sign-in");
let last = Date.now(), before = null;

const back = () => (before?.isConnected ? before : document.querySelector("main")).focus({ preventScroll: true });

function show() {
  const idle = Date.now() - last, hasEnded = idle >= span, isHere = document.activeElement === stay;
  soon.hidden = hasEnded;
  over.hidden = !hasEnded;
  stay.hidden = hasEnded;
  const appears = bar.hidden && idle >= span - ahead;
  bar.hidden = idle < span - ahead;
  if (appears && document.activeElement !== document.body) document.activeElement.scrollIntoView({ block: "nearest" }); // not under the line
  if (isHere && !stay.checkVisibility()) back(); // to where one was typing
}

function seen() {
  last = Date.now();
  show();
}

stay.addEventListener("click", async () => {
  const answer = await fetch("/account", { redirect: "manual" }).catch(() => null);
  if (answer === null) return; // no network: the words stay, and the button
  if (answer.ok) {
    seen();
    tabs.postMessage("seen");
  } else {
    last = 0;
    show();
  }
});

document.addEventListener("focusin", event => before = bar.contains(event.target) ? before : event.target);
tabs.addEventListener("message", seen);
tabs.postMessage("seen");
document.addEventListener("visibilitychange", show);
setInterval(show, glance);
