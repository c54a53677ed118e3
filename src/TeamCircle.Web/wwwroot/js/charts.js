// What every chart shares: the page's own ink and letters, nothing that moves, the system's colours where it forces them, black on white on
// paper. A chart is drawn from the table that stands beside it, so that both are the same numbers; without this script the table stands alone.
const forced = matchMedia("(forced-colors: active)");
const looks = [forced, matchMedia("(prefers-color-scheme: dark)"), matchMedia("(prefers-contrast: more)"), matchMedia("(max-width: 40rem)")];
const onPaper = { ink: "#000", soft: "#222", rule: "#777", ground: "#fff" };
const fromSystem = { ink: "CanvasText", soft: "CanvasText", rule: "CanvasText", ground: "Canvas" };
const paperSize = { width: 680, height: 320 };
const msADay = 86_400_000;

/** The number of the day that a cell's time element names. */
export const dayOf = element => Date.parse(element.dateTime) / msADay;

/** The number that a cell's data element holds. */
export const valueOf = element => Number(element.value);

/** How a day is written on an axis. */
const month = new Intl.DateTimeFormat("en", { month: "short", timeZone: "UTC" });

function inkOf(canvas) {
  if (forced.matches) return fromSystem;
  const style = getComputedStyle(canvas);
  return Object.fromEntries(Object.keys(onPaper).map(name => [name, style.getPropertyValue(`--${name}`).trim()]));
}

/**
 * Shows a figure's canvas and draws on it, again whenever the reader's colours change, and in black on white for paper.
 * @param make Makes the chart's settings from the ink and the letters to draw with.
 */
export function show(figure, make) {
  const canvas = figure.querySelector("canvas");
  figure.hidden = false;
  const style = getComputedStyle(canvas);
  const letters = { family: style.fontFamily, size: Math.round(parseFloat(style.fontSize) * 0.8) };
  let chart;
  const draw = (ink, fixed) => {
    chart?.destroy();
    if (fixed) Object.assign(canvas, fixed);
    const { options, ...rest } = make(ink, letters);
    chart = new Chart(canvas, {
      ...rest,
      options: {
        animation: false, events: [], responsive: !fixed, maintainAspectRatio: false, devicePixelRatio: fixed ? 3 : undefined,
        color: ink.ink, font: letters, ...options,
        plugins: { legend: { display: false }, tooltip: { enabled: false }, ...options.plugins },
      },
    });
  };
  const again = () => draw(inkOf(canvas));
  looks.forEach(look => look.addEventListener("change", again));
  addEventListener("beforeprint", () => draw(onPaper, paperSize));
  addEventListener("afterprint", again);
  document.fonts.ready.then(again);
}

/** An axis with hairlines; `title` in words. */
export const axis = (ink, letters, title, more = {}) => ({
  border: { color: ink.ink }, grid: { color: ink.rule, lineWidth: 0.5, drawTicks: false }, title: { display: Boolean(title), text: title, color: ink.soft, font: letters },
  ...more, ticks: { color: ink.soft, font: letters, padding: 6, maxRotation: 0, ...more.ticks },
});

/** An axis of days with a line at the first of each month, or of every few months where there are many. */
export const dayAxis = (ink, letters, first, last) => axis(ink, letters, "", {
  type: "linear", min: first, max: last,
  afterBuildTicks: scale => { scale.ticks = months(first, last).map(value => ({ value })); },
  ticks: { autoSkip: true, callback: monthWords },
});

function months(first, last) {
  const days = [], from = new Date(first * msADay);
  for (let m = from.getUTCMonth() + 1; ; m++) {
    const day = Date.UTC(from.getUTCFullYear(), m, 1) / msADay;
    if (day > last) return days;
    days.push(day);
  }
}

function monthWords(day) {
  const date = new Date(day * msADay);
  return date.getUTCMonth() === 0 ? [month.format(date), String(date.getUTCFullYear())] : month.format(date);
}

/** Words beside a line, on the page's own ground so that they stay legible over other lines. */
export const label = (ink, letters, words, more = {}) => ({
  display: true, content: words, color: ink.ink, backgroundColor: ink.ground, borderRadius: 0, padding: 2, font: letters, ...more,
});

/** A straight line between two points. */
export const line = (ink, from, to, more = {}) => ({
  type: "line", xMin: from.x, yMin: from.y, xMax: to.x, yMax: to.y, borderColor: ink.ink, borderWidth: 1.5, ...more,
});
