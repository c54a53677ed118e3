// Draws each curve of times to respond from its table: the share that responded, rising second by second, and the waits in use as upright lines.
import { axis, label, line, show } from "./charts.js";

const dashes = [[], [7, 4]];

/** The curves of a table: for each column that holds shares, its points up to where it ends. */
function curvesOf(table) {
  const curves = [];
  for (const row of table.querySelectorAll("[data-reading]")) {
    const cells = [...row.querySelectorAll("td:not(.number)")];
    cells.forEach((cell, i) => {
      const data = cell.querySelector("data");
      if (data) (curves[i] ??= []).push({ x: Number(row.dataset.reading), y: percent(data.value), low: percent(data.dataset.low), high: percent(data.dataset.high) });
    });
  }
  return curves;
}

const percent = share => share ? Number(share) * 100 : NaN;

const stepped = (ink, points, more) => ({ data: points, stepped: true, pointRadius: 0, borderColor: ink.ink, borderWidth: 2, ...more });

const limits = (ink, points) => ["low", "high"].map(end =>
  stepped(ink, points.map(p => ({ x: p.x, y: p[end] })), { borderColor: ink.soft, borderWidth: 1, borderDash: [2, 3] }));

const upright = (ink, letters, seconds, i) => line(ink, { x: seconds, y: 0 }, { x: seconds, y: 100 }, {
  borderWidth: 1, label: label(ink, letters, `${seconds} s`, { position: "end", yAdjust: i * letters.size * 1.6 }),
});

for (const figure of document.querySelectorAll("[data-wait-chart]")) {
  const curves = curvesOf(document.getElementById(figure.dataset.waitChart));
  const waits = figure.dataset.waits.split(" ").filter(Boolean).map(Number);
  const last = Math.max(...curves.flat().map(p => p.x), ...waits);
  show(figure, (ink, letters) => ({
    type: "line",
    data: { datasets: [...curves.map((points, i) => stepped(ink, points, { borderDash: dashes[i] })), ...(curves.length === 1 ? limits(ink, curves[0]) : [])] },
    options: {
      scales: {
        x: axis(ink, letters, "seconds", { type: "linear", min: 0, max: last, ticks: { precision: 0 } }),
        y: axis(ink, letters, "percent of trials", { min: 0, max: 100, ticks: { stepSize: 25 } }),
      },
      plugins: { annotation: { clip: false, annotations: waits.map((seconds, i) => upright(ink, letters, seconds, i)) } },
    },
  }));
}
