// The conditions strip: filled from the routine, changed by a tap, copied into the record as it was.
import { choices, el, field } from "./element.js";
import { states, together } from "./words.js";

/** What the routine says of the conditions. */
export function conditionsOf(content) {
  const { side, height, distance, light, background, position, support, device } = content;
  const own = { side, height, distance, light, background, position, supportAt: support, switch: device?.name, switchSite: device?.site, switchSide: device?.side, mount: together([device?.mount, device?.measures]) };
  return Object.fromEntries(Object.entries(own).filter(([, value]) => value));
}

const presented = [["side", "Side"], ["height", "Height"], ["distance", "Distance"], ["light", "Light"], ["background", "Background"]];
const position = [["position", "Position"], ["equipment", "Equipment"], ["timeIn", "In at", "time"], ["timeOut", "Out at", "time"], ["tilt", "Tilt"], ["tolerance", "How it was borne"], ["skin", "Skin when taken off"]];
const hand = [["hand", "Hand"], ["supportAt", "Support at"], ["switch", "Switch"], ["switchSite", "Site"], ["switchSide", "Side of the switch"], ["mount", "Mount"], ["hits", "Hits", "number"], ["misses", "Misses", "number"]];
const people = [["present", "Who is there"], ["glasses", "Glasses"], ["hearingAids", "Hearing aids"], ["splints", "Splints"]];

/**
 * @param conditions as they stand
 * @param when "start", "middle" or "end": whose state is asked for
 * @param change (name, value) told of each change
 */
export function conditionsStrip(conditions, when, change) {
  const changed = event => {
    const { name, value, type } = event.target;
    change(name, type === "number" ? (value === "" ? undefined : Number(value)) : value);
  };
  const group = (title, fields) => el("details", {}, el("summary", {}, title), el("div", { class: "fields" }, fields.map(([name, label, type = "text"]) =>
    field(label, el("input", { name, type, value: conditions[name] ?? "", min: type === "number" ? 0 : null, maxlength: 500, autocomplete: "off" })))));
  return el("div", { class: "conditions", on: { change: changed } },
    choices(`State at the ${when}`, `state.${when}`, states, conditions.state?.[when] ?? ""),
    field("News from home today", el("input", { type: "text", name: "news", value: conditions.news ?? "", maxlength: 500, autocomplete: "off" })),
    group("How things are presented", presented), group("Position and equipment", position), group("Hand and switch", hand), group("Who is there; glasses, hearing aids, splints", people));
}
