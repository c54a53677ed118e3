// Says what stands against a visit while it is being filled in. Without this script the same is said on saving;
// the server decides either way, and asking writes nothing.
const form = document.querySelector("form[data-visit]");
const wait = 120; // milliseconds after the last change

let timer = 0;
let asking = null;

function refresh() {
  const often = form.elements.namedItem("Input.Often")?.value;
  const recurs = form.querySelector("[data-recurs]");
  if (recurs && often) recurs.hidden = often === "Once" && !recurs.querySelector(".has-problem");
  clearTimeout(timer);
  timer = setTimeout(ask, wait);
}

async function ask() {
  const shown = form.querySelector("[data-clashes]");
  const typed = new URLSearchParams([...new FormData(form)].filter(([name, value]) => name.startsWith("Input.") && value !== ""));
  asking?.abort();
  asking = new AbortController();
  try {
    const answer = await fetch(`${form.dataset.asks ?? form.getAttribute("action")}?handler=Clashes&${typed}`, { signal: asking.signal });
    if (answer.ok && !answer.redirected) shown.innerHTML = await answer.text();
  } catch {
    // No network, or another change came first: saving will say it.
  }
}

if (form) {
  form.addEventListener("input", refresh);
  refresh();
}
