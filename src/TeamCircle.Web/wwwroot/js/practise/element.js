// Makes elements. Text is always text: nothing that was typed by anybody becomes markup.

/**
 * @param attributes plain attributes; `on` holds listeners by event; true and false set or leave out an attribute
 * @param children elements, texts, lists of them; null and false are left out
 */
export function el(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  const { on = {}, ...plain } = attributes;
  for (const [name, value] of Object.entries(plain))
    if (value !== false && value != null) element.setAttribute(name, value === true ? "" : value);
  for (const [event, listener] of Object.entries(on)) element.addEventListener(event, listener);
  element.append(...children.flat(2).filter(child => child != null && child !== false));
  return element;
}

export const act = (words, click, attributes = {}) => el("button", { type: "button", class: "act", ...attributes, on: { click } }, words);

let fields = 0;

/** A field with its label, and a hint below it. @param input made with el */
export function field(label, input, hint) {
  input.id ||= `field-${++fields}`;
  const about = hint && el("p", { class: "hint", id: `${input.id}-hint` }, hint);
  if (about) input.setAttribute("aria-describedby", about.id);
  return el("div", { class: "field" }, el("label", { for: input.id }, label), about, input);
}

/** One of several, as round buttons. @param choices [[value, words]] */
export function choices(legend, name, list, chosen) {
  return el("fieldset", { class: "field" }, el("legend", {}, legend), el("div", { class: "choices" },
    list.map(([value, words]) => el("label", {}, el("input", { type: "radio", name, value, checked: value === chosen }), " ", words))));
}

export function select(name, list, chosen) {
  return el("select", { name }, list.map(([value, words]) => el("option", { value, selected: value === (chosen ?? "") }, words)));
}

/**
 * Draws a page, and again whenever something has changed, until it is left. What was still being put together when it was left, or when a
 * later drawing was done, comes to nothing: it would stand over the page that somebody types in by then.
 * @param parts gives what is to be drawn, an array
 * @returns what is to be done on leaving
 */
export async function keepDrawn(place, parts) {
  let isLeft = false, asked = 0, drawn = 0;
  const draw = async () => {
    const mine = ++asked, nodes = await parts();
    if (isLeft || mine < drawn) return;
    drawn = mine;
    place.replaceChildren(...nodes);
  };
  place.addEventListener("changed", draw);
  await draw();
  return () => {
    isLeft = true;
    place.removeEventListener("changed", draw);
  };
}
