// Draws a goal's chart from the tables on its page: points by the person's initial, the lines, what changed and when, and the probes that are missing.
import { axis, dayAxis, dayOf, label, line, show, valueOf } from "./charts.js";

const figure = document.querySelector("[data-goal-chart]");
const rows = name => [...document.querySelectorAll(`[data-${name}]`)];
const narrow = matchMedia("(max-width: 40rem)");
const dashes = { aimline: [7, 4], trend: [], chance: [1, 3], baseline: [2, 2], target: [2, 2] };

const pointOf = row => ({
  x: dayOf(row.querySelector("time")), y: valueOf(row.querySelector("data")), kind: row.dataset.point, initial: row.querySelector("[data-initial]").textContent,
});

function lineOf(row) {
  const [from, to] = row.querySelectorAll("time"), [first, last] = row.querySelectorAll("data");
  return { name: row.dataset.line, words: row.querySelector("th").textContent, from: { x: dayOf(from), y: valueOf(first) }, to: { x: dayOf(to), y: valueOf(last) } };
}

const markOf = row => ({ day: dayOf(row.querySelector("time")), words: row.dataset.mark });
const outageOf = row => ({ span: spanOf(row) });
const spanOf = row => [...row.querySelectorAll("time")].map(dayOf);

/** Each point as its person's initial: ringed for a probe, bare over a short line for teaching data. */
const initials = (points, ink, letters) => ({
  id: "initials",
  afterDatasetsDraw({ ctx, scales: { x, y } }) {
    const reach = letters.size * 0.64;
    ctx.save();
    Object.assign(ctx, { font: `${letters.size * 0.9}px ${letters.family}`, textAlign: "center", textBaseline: "middle", lineWidth: 1.25, strokeStyle: ink.ink });
    for (const { kind, initial, at: [left, top] } of apart(points.map(p => ({ ...p, at: [x.getPixelForValue(p.x), y.getPixelForValue(p.y)] })), reach)) {
      ctx.fillStyle = ink.ground;
      ctx.beginPath();
      ctx.arc(left, top, reach, 0, 2 * Math.PI);
      ctx.fill();
      if (kind === "probe") ctx.stroke();
      else ctx.strokeRect(left - reach, top + reach, 2 * reach, 0);
      ctx.fillStyle = ink.ink;
      ctx.fillText(initial, left, top + 1);
    }
    ctx.restore();
  },
});

/** Moves points of one level that would cover each other a little aside, at most by their own width: the day is read from the table, the level from the chart. */
function apart(points, reach) {
  points.sort((a, b) => a.at[0] - b.at[0]);
  const places = points.map(p => p.at[0]);
  for (let round = 0; round < 8; round++) {
    points.forEach((point, i) => {
      const next = points.findIndex((p, j) => j > i && Math.abs(p.at[1] - point.at[1]) < reach), lacks = next < 0 ? 0 : 1.6 * reach - (points[next].at[0] - point.at[0]);
      if (lacks <= 0) return;
      point.at[0] = Math.max(places[i] - 2 * reach, point.at[0] - lacks / 2);
      points[next].at[0] = Math.min(places[next] + 2 * reach, points[next].at[0] + lacks / 2);
    });
  }
  return points;
}

/** The days of the chart: all that was recorded, with room for the next half as much, where a line leads there. A target a year ahead would leave no room for it. */
function daysOf(points, lines, marks, missing) {
  const days = [...points.map(p => p.x), ...marks.map(m => m.day), ...missing.flat()];
  const [first, last] = [Math.min(...days), Math.max(...days)], room = Math.max(3, (last - first) * 0.04);
  return [first - room, Math.max(last + room, Math.min(Math.max(...lines.map(l => l.to.x)), last + Math.max(28, (last - first) / 2)))];
}

/** The part of a line that lies on the chart's days. */
function within({ from, to, ...rest }, first, last) {
  const at = day => ({ x: day, y: from.y + (to.y - from.y) * (day - from.x) / (to.x - from.x) });
  return { ...rest, from: from.x < first ? at(first) : from, to: to.x > last ? at(last) : to };
}

/** Words stand above the chart, letters in it: so the two never cover each other. */
const upright = (ink, letters, { day, words }, isLetter = words.length <= 2) => ({
  type: "line", xMin: day, xMax: day, borderColor: ink.ink, borderWidth: isLetter ? 1 : 1.5, borderDash: isLetter ? [4, 3] : [],
  label: label(ink, letters, words, { position: "end", yAdjust: isLetter ? -2 : -letters.size * 1.5 }),
});

const cell = (ink, span, foot, top) => ({
  type: "box", xMin: span[0], xMax: span[1] + 1, yMin: foot, yMax: top, backgroundColor: "transparent", borderColor: ink.ink, borderWidth: 1, borderDash: [2, 2], borderRadius: 0,
});

/** The days on which something that the goal needs was out of order: hatched behind the points, from the first morning to the last evening. */
const hatched = (ink, letters, { span }) => ({
  type: "box", drawTime: "beforeDatasetsDraw", xMin: span[0] - 0.5, xMax: span[1] + 0.5, backgroundColor: hatch(ink.rule), borderColor: ink.rule, borderWidth: 1, borderRadius: 0,
  label: label(ink, letters, ["out of", "order"], { drawTime: "beforeDatasetsDraw", textAlign: "center", position: { x: "center", y: "end" }, yAdjust: -letters.size }),
});

function hatch(color) {
  const tile = Object.assign(document.createElement("canvas"), { width: 8, height: 8 }), ctx = tile.getContext("2d");
  Object.assign(ctx, { strokeStyle: color, lineWidth: 1 });
  ctx.beginPath();
  for (const at of [-4, 0, 4, 8, 12]) {
    ctx.moveTo(at - 4, 12);
    ctx.lineTo(at + 12, -4);
  }
  ctx.stroke();
  return ctx.createPattern(tile, "repeat");
}

const named = (ink, letters, l) => line(ink, l.from, l.to, {
  borderDash: dashes[l.name], borderWidth: l.name === "trend" ? 2.5 : 1.5, label: label(ink, letters, l.words, wordsBeside(l.name, letters.size)),
});

/** Where a line's words stand: after the end of the trend, under the start of the baseline, above the end of the others. */
function wordsBeside(name, size) {
  if (name === "trend") return { position: "end", xAdjust: size * 2 };
  if (name === "baseline") return { position: "start", xAdjust: size * 1.4, yAdjust: size * 1.4 };
  return { position: "end", xAdjust: -size, yAdjust: -size };
}

if (figure) {
  const [points, all, marks, missing] = [rows("point").map(pointOf), rows("line").map(lineOf), rows("mark").map(markOf), rows("missing").map(spanOf)];
  const outages = rows("outage").map(outageOf), [first, last] = daysOf(points, all, marks, [...missing, ...outages.map(o => o.span)]), lines = all.map(l => within(l, first, last));
  const values = [...points.map(p => p.y), ...lines.flatMap(l => [l.from.y, l.to.y])];
  const least = figure.dataset.least ? Number(figure.dataset.least) : Math.min(...values);
  const most = figure.dataset.most ? Number(figure.dataset.most) : Math.max(...values);
  // Missing probes stand on the foot of the chart, below the least value.
  const height = (most - least || 1) * 0.05, foot = missing.length > 0 ? least - 2 * height : least - height / 2;
  show(figure, (ink, letters) => ({
    type: "scatter",
    data: { datasets: [{ data: points.map(({ x, y }) => ({ x, y })), pointRadius: 0 }] },
    plugins: [initials(points, ink, letters)],
    options: {
      layout: { padding: { top: letters.size * 1.8, right: 4 } },
      scales: {
        x: dayAxis(ink, letters, first, last),
        y: axis(ink, letters, figure.dataset.measure, { position: narrow.matches ? "right" : "left", min: foot, max: most + height, ticks: { includeBounds: false, callback: value => value < least || value > most ? "" : value } }),
      },
      plugins: {
        annotation: {
          clip: false,
          annotations: [
            ...outages.map(outage => hatched(ink, letters, outage)),
            ...missing.map(span => cell(ink, span, foot, foot + height)), ...marks.map(mark => upright(ink, letters, mark)), ...lines.map(l => named(ink, letters, l)),
          ],
        },
      },
    },
  }));
  // On a phone a crowded chart is wider than the screen: it opens at its latest days, with the values beside them.
  const scroller = figure.querySelector(".scroller");
  if (narrow.matches) scroller.scrollLeft = scroller.scrollWidth;
}
