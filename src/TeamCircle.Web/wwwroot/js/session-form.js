// Hides what does not apply to the visit as it is being described. Without this script all fields stay visible;
// the server decides what may be saved either way.
const form = document.querySelector("form[data-session]");

const field = name => form.elements.namedItem(`Input.${name}`);
const whole = input => input instanceof RadioNodeList ? input[0].closest(".field") : input?.closest(".field");

function show(name, isShown) {
  const part = whole(field(name));
  // What has a problem, or holds something, is never hidden: it would be sent unseen.
  if (part) part.hidden = !isShown && !part.classList.contains("has-problem") && !holds(field(name));
}

function holds(input) {
  return !(input instanceof RadioNodeList) && input.value !== "";
}

function minutes(text) {
  const found = /^\s*(\d{1,2})[:.]?(\d{2})?\s*([ap])?/i.exec(text);
  if (!found) return null;
  const hour = Number(found[1]) % (found[3] ? 12 : 24) + (/p/i.test(found[3] ?? "") ? 12 : 0);
  return hour * 60 + Number(found[2] ?? 0);
}

function isShort() {
  const planned = minutes(form.dataset.planned ?? ""), end = minutes(field("End").value);
  return planned !== null && end !== null && end < planned;
}

function refresh() {
  const isGiven = field("Outcome").value === "Given";
  show("Reason", !isGiven || isShort());
  show("SharedMinutes", isGiven && field("PartnerId")?.value !== "");
  show("Led", isGiven && field("PartnerId")?.value !== "");
}

if (form) {
  form.addEventListener("input", refresh);
  refresh();
}
