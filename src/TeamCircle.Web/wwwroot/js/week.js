// With a mouse or pen, one's own scheduled visit can be dragged to another time, and an empty place takes the time that was pointed at.
// Both lead to the form with day and time filled in: nothing is saved here, and links do the same without a pointer.
const sheet = document.querySelector("svg.days");
const stepMinutes = 5, leastPixels = 6;

const two = n => String(n).padStart(2, "0");
const clock = minutes => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
const hourPixels = () => Number(sheet.dataset.hour) * parseFloat(getComputedStyle(sheet).fontSize);

/** The minute of the day at a height on the screen, to the step below it. */
function minuteAt(clientY, step) {
  const top = sheet.getBoundingClientRect().top + Number(sheet.dataset.head) * parseFloat(getComputedStyle(sheet).fontSize);
  const minutes = Number(sheet.dataset.first) * 60 + (clientY - top) / hourPixels() * 60;
  return Math.min(24 * 60 - step, Math.max(0, Math.floor(minutes / step) * step));
}

/** The day whose column a place on the screen is in. */
function dayAt(clientX) {
  const days = [...sheet.querySelectorAll(".day")];
  return days.findLast(day => day.querySelector(".edge").getBoundingClientRect().left <= clientX) ?? days[0];
}

function drag(item, begun) {
  const from = { x: item.x.baseVal.value, y: item.y.baseVal.value, attributes: ["x", "y"].map(a => item.getAttribute(a)) };
  const top = item.querySelector(".ground").getBoundingClientRect().top;
  const figure = item.querySelector(".figure"), words = figure.textContent;
  const place = { day: item.closest(".day").dataset.day, start: null };

  const move = event => {
    if (!item.classList.contains("moving") && Math.hypot(event.clientX - begun.clientX, event.clientY - begun.clientY) < leastPixels) return;
    item.classList.add("moving");
    place.day = dayAt(event.clientX).dataset.day;
    place.start = clock(minuteAt(top + event.clientY - begun.clientY + hourPixels() / 24, stepMinutes));
    item.setAttribute("x", from.x + event.clientX - begun.clientX);
    item.setAttribute("y", from.y + event.clientY - begun.clientY);
    figure.textContent = place.start;
  };
  const end = event => {
    document.removeEventListener("pointermove", move);
    document.removeEventListener("pointerup", end);
    document.removeEventListener("pointercancel", end);
    document.removeEventListener("keydown", escape);
    const moved = item.classList.contains("moving");
    item.classList.remove("moving");
    if (moved) document.addEventListener("click", stay, { capture: true, once: true });
    setTimeout(() => document.removeEventListener("click", stay, { capture: true }));
    if (moved && event.type === "pointerup") {
      location.assign(`${item.dataset.move}?day=${place.day}&start=${encodeURIComponent(place.start)}`);
      return;
    }
    ["x", "y"].forEach((attribute, i) => item.setAttribute(attribute, from.attributes[i]));
    figure.textContent = words;
  };
  const escape = event => { if (event.key === "Escape") end(event); };
  const stay = event => event.preventDefault();

  document.addEventListener("pointermove", move);
  document.addEventListener("pointerup", end);
  document.addEventListener("pointercancel", end);
  document.addEventListener("keydown", escape);
}

sheet?.addEventListener("dragstart", event => event.preventDefault()); // the browser's own dragging of links
sheet?.addEventListener("pointerdown", event => {
  const item = event.target.closest("[data-move]");
  if (item && event.button === 0 && event.pointerType !== "touch") drag(item, event);
});
sheet?.addEventListener("click", event => {
  const link = event.target.closest(".gap a");
  if (!link || event.detail === 0) return; // a key was pressed: the link's own time holds
  const start = clock(minuteAt(event.clientY, 15));
  const address = new URL(link.href);
  address.searchParams.set("start", start < link.dataset.gap ? link.dataset.gap : start);
  link.href = address;
});
