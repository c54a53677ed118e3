// Two keys on every page: / goes to the field that finds, ? shows the list of keys. Only while no field has the focus and no other key is
// held; the list lies over the page, so that nothing typed is lost. Both can be turned off on the page of keys.
const isTyping = target => target.closest?.("input:not([type=checkbox], [type=radio]), textarea, select, [contenteditable]") != null;

const element = (name, properties) => Object.assign(document.createElement(name), properties);

async function showKeys() {
  const answer = await fetch("/keys");
  if (!answer.ok || answer.redirected) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  for (const form of page.querySelectorAll("[data-keys-switch]")) form.remove();
  const parts = [...page.querySelectorAll("main > .part")];
  for (const part of parts) {
    part.classList.add("wide"); // headings stand above, not in a margin
    for (const own of part.querySelectorAll("h2")) own.replaceWith(element("h3", { textContent: own.textContent }));
  }
  const dialog = element("dialog", { className: "keys" });
  dialog.setAttribute("aria-labelledby", "keys-heading");
  const ways = element("form", { method: "dialog", className: "acts" });
  ways.append(element("button", { className: "act main", textContent: "Close" }), element("a", { className: "act plain", href: "/keys", textContent: "Turn / and ? off" }));
  dialog.append(element("h2", { id: "keys-heading", textContent: "Keys" }), ways, ...parts);
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

function toFind() {
  const field = [...document.querySelectorAll("main [role=search] input[type=search], #find")].find(f => f.checkVisibility());
  if (field) {
    field.focus();
    field.select();
  } else document.querySelector(".to-find")?.click();
}

document.addEventListener("keydown", event => {
  if (event.defaultPrevented || event.repeat || event.isComposing || event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
  const act = document.querySelector("dialog[open]") ? null : { "/": toFind, "?": showKeys }[event.key];
  if (!act) return;
  event.preventDefault();
  act();
});
