// Says what stands against a visit while it is being filled in. Without this script the same is said on saving;
// the server decides either way, and asking writes nothing.
const form = document.querySelector("form[data-visit]");
const wait = 80; // milliseconds after the last change

let timer = 0;
let asked = 0;

function refresh() {
  const often = form.elements.namedItem("Input.Often")?.value;
  const recurs = form.querySelector("[data-recurs]");
  if (recurs && often) recurs.hidden = often === "Once" && !recurs.querySelector(".has-problem");
  clearTimeout(timer);
  timer = setTimeout(ask, wait);
}

async function ask() {
  const number = ++asked;
  const typed = new URLSearchParams([...new FormData(form)].filter(([name, value]) => name.startsWith("Input.") && value !== ""));
  try {
    const answer = await fetch(`${form.getAttribute("action")}?handler=Clashes&${typed}`);
    const words = answer.ok && !answer.redirected ? await answer.text() : "";
    // An answer to what stood there before the last change is passed over.
    if (number === asked) form.querySelector("[data-clashes]").innerHTML = words;
  } catch {
    // No network: saving will say it.
  }
}

if (form) {
  form.addEventListener("input", refresh);
  refresh();
}
