// Curves by uPlot, in the page's colours, moved by mouse, finger and keyboard.

import uPlot from '../lib/uplot/uPlot.esm.js';
import { dosesTogether } from './reading.js';
import * as u from './units.js';

const HEIGHT_PX = { narrow: 300, wide: 420 };
const LEAST_SPAN_S = 300;

const css = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
export const colour = (name) => () => css(name);

let sheet = null;
function needSheet() {
  if (sheet) return;
  sheet = document.createElement('link');
  sheet.rel = 'stylesheet';
  sheet.href = 'lib/uplot/uPlot.min.css';
  document.head.append(sheet);
}

/** Labels of a time axis in the reader's zone and clock; a new day is named where it begins. */
function timeLabels(_plot, splits, _axisIndex, _space, step) {
  const days = splits.map((at) => u.day(at * 1000));
  return splits.map((at, i) => {
    if (step >= 86400) return days[i];
    // The first day is not named where the next one begins right beside it: both would not have room.
    const names = i === 0 ? days.length < 2 || days[1] === days[0] : days[i] !== days[i - 1];
    return names ? `${u.clockTime(at * 1000)}\n${days[i]}` : u.clockTime(at * 1000);
  });
}

/** With as many digits as tell one step from the next. */
function numbersAt(splits) {
  const step = splits.length > 1 ? splits[1] - splits[0] : 1;
  const digits = [0, 1, 2].find((each) => Math.abs(step - Number(step.toFixed(each))) < 1e-9) ?? 3;
  return splits.map((value) => u.number(value, digits));
}

/** Days and hours of the axis fall where the reader's zone has them. */
const inZone = (at) => uPlot.tzDate(new Date(at * 1e3), u.zone());

function axis(extra) {
  return {
    stroke: colour('--soft'),
    font: `12px ${css('--sans')}`,
    grid: { stroke: colour('--line'), width: 1 },
    ticks: { stroke: colour('--line'), width: 1 },
    ...extra,
  };
}

const heightFor = (width) => (width < 600 ? HEIGHT_PX.narrow : HEIGHT_PX.wide);

/** Keeps a chart as wide as its place and in the colours of the scheme; answers a function that ends both. */
function keepFitting(plot, place, height) {
  const resize = new ResizeObserver(() => {
    const width = place.clientWidth;
    if (width > 0 && width !== plot.width) plot.setSize({ width, height: height ?? heightFor(width) });
  });
  resize.observe(place);
  const scheme = matchMedia('(prefers-color-scheme: dark)');
  const redraw = () => plot.redraw(false, true);
  scheme.addEventListener('change', redraw);
  return () => {
    resize.disconnect();
    scheme.removeEventListener('change', redraw);
    plot.destroy();
  };
}

/** Pans and zooms the x scale: keys on `place`, Shift-drag, one finger, two fingers, Ctrl-wheel. */
function makeMovable(plot, place, moved, home) {
  const over = plot.over;
  const fingers = new Map();
  const set = (min, max) => {
    if (max - min < LEAST_SPAN_S) return;
    plot.setScale('x', { min, max });
    moved(min, max);
  };
  const span = () => plot.scales.x.max - plot.scales.x.min;
  const shift = (part) => set(plot.scales.x.min + part * span(), plot.scales.x.max + part * span());
  const zoom = (factor, centre = 0.5) => {
    const at = plot.scales.x.min + centre * span();
    set(at - (at - plot.scales.x.min) * factor, at + (plot.scales.x.max - at) * factor);
  };
  const keys = {
    ArrowLeft: () => shift(-0.2),
    ArrowRight: () => shift(0.2),
    '+': () => zoom(0.6),
    '=': () => zoom(0.6),
    '-': () => zoom(1 / 0.6),
    0: home,
  };
  place.addEventListener('keydown', (event) => {
    if (event.target !== place || event.ctrlKey || event.metaKey || event.altKey || !keys[event.key]) return;
    if (event.shiftKey && event.key.startsWith('Arrow')) return; // moves the moment
    event.preventDefault();
    keys[event.key]();
  });
  over.addEventListener(
    'wheel',
    (event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      zoom(event.deltaY > 0 ? 1.25 : 0.8, event.offsetX / over.clientWidth);
    },
    { passive: false },
  );
  over.addEventListener('mousedown', (event) => event.shiftKey && event.stopImmediatePropagation(), true);
  over.addEventListener('pointerdown', (event) => {
    if (event.pointerType === 'mouse' && !event.shiftKey) return;
    fingers.set(event.pointerId, event.clientX);
    over.setPointerCapture(event.pointerId);
  });
  over.addEventListener('pointermove', (event) => {
    if (!fingers.has(event.pointerId)) return;
    const before = [...fingers.values()];
    fingers.set(event.pointerId, event.clientX);
    const after = [...fingers.values()];
    if (fingers.size === 1) shift((before[0] - after[0]) / over.clientWidth);
    else {
      const apart = (places) => Math.max(20, Math.abs(places[0] - places[1]));
      const middle = ((after[0] + after[1]) / 2 - over.getBoundingClientRect().left) / over.clientWidth;
      zoom(apart(before) / apart(after), middle);
    }
  });
  const lift = (event) => fingers.delete(event.pointerId);
  over.addEventListener('pointerup', lift);
  over.addEventListener('pointercancel', lift);
  over.addEventListener('dblclick', home);
}

const MOMENT_STEPS = 40;

/** Shift with an arrow key moves the moment that is looked at, beginning at the range's end. */
function makeMomentMovable(plot, place, now, tell) {
  place.addEventListener('keydown', (event) => {
    if (event.target !== place || !event.shiftKey || !['ArrowLeft', 'ArrowRight'].includes(event.key)) return;
    event.preventDefault();
    const { min, max } = plot.scales.x;
    const from = now() >= min && now() <= max ? now() : max;
    tell(Math.max(min, Math.min(max, from + ((event.key === 'ArrowLeft' ? -1 : 1) * (max - min)) / MOMENT_STEPS)), true);
  });
}

const DASHES = { wet: [1, 4], capacity: [], refill: [8, 3, 2, 3], due: [3, 3], dry: [9, 5] };

function drawLines(plot, lines) {
  const { ctx, bbox } = plot;
  const ratio = devicePixelRatio;
  ctx.save();
  ctx.font = `${12 * ratio}px ${css('--sans')}`;
  ctx.textAlign = 'right';
  ctx.textBaseline = 'alphabetic';
  let lastY = -Infinity;
  for (const line of [...lines].sort((a, b) => b.value - a.value)) {
    const y = plot.valToPos(line.value, 'y', true);
    if (y < bbox.top || y > bbox.top + bbox.height) continue;
    ctx.beginPath();
    ctx.strokeStyle = css(line.name === 'dry' || line.name === 'wet' ? '--clay' : '--soft');
    ctx.lineWidth = ratio * (line.name === 'capacity' ? 0.6 : 1.2);
    ctx.setLineDash(DASHES[line.name].map((part) => part * ratio));
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
    if (y - lastY > 14 * ratio) {
      ctx.fillStyle = css('--soft');
      ctx.fillText(line.label, bbox.left + bbox.width - 4 * ratio, y - 4 * ratio);
      lastY = y;
    }
  }
  ctx.restore();
}

/** The moment that is looked at. */
function drawMoment(plot, at) {
  if (!(at >= plot.scales.x.min && at <= plot.scales.x.max)) return;
  const { ctx, bbox } = plot;
  const x = plot.valToPos(at, 'x', true);
  ctx.save();
  ctx.strokeStyle = css('--focus');
  ctx.lineWidth = 2 * devicePixelRatio;
  ctx.beginPath();
  ctx.moveTo(x, bbox.top);
  ctx.lineTo(x, bbox.top + bbox.height);
  ctx.stroke();
  ctx.restore();
}

const DOSE_LABEL_PX = 52;

function drawDoses(plot, doses) {
  const { ctx, bbox } = plot;
  const ratio = devicePixelRatio;
  const size = 5 * ratio;
  const seen = doses.filter((dose) => dose.at >= plot.scales.x.min && dose.at <= plot.scales.x.max);
  const xOf = (at) => plot.valToPos(at, 'x', true);
  ctx.save();
  ctx.font = `${11 * ratio}px ${css('--sans')}`;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'alphabetic';
  ctx.strokeStyle = css('--busy');
  ctx.fillStyle = css('--busy');
  ctx.lineWidth = ratio;
  const y = bbox.top + 2.2 * size;
  ctx.globalAlpha = 0.3;
  for (const dose of seen) {
    ctx.beginPath();
    ctx.moveTo(xOf(dose.at), y);
    ctx.lineTo(xOf(dose.at), bbox.top + bbox.height);
    ctx.stroke();
  }
  ctx.globalAlpha = 1;
  for (const dose of dosesTogether(seen, xOf, DOSE_LABEL_PX * ratio)) {
    const { x } = dose;
    ctx.beginPath(); // a drop, filled where there was feed in it
    ctx.moveTo(x, y - 2 * size);
    ctx.quadraticCurveTo(x + 1.4 * size, y, x, y);
    ctx.quadraticCurveTo(x - 1.4 * size, y, x, y - 2 * size);
    ctx.stroke();
    if (dose.feed) ctx.fill();
    const words = u.volume(dose.ml);
    const fits = x + size + ctx.measureText(words).width < bbox.left + bbox.width;
    ctx.textAlign = fits ? 'left' : 'right';
    ctx.fillText(words, fits ? x + size : x - size, y);
  }
  ctx.restore();
}

/**
 * A weight curve in `place`. `options`: {from, to} epoch seconds, moved(from, to), home(), moment(at, massG).
 * Answers {setData, setRange, setMarks, setMoment, end}.
 */
export function weightChart(place, options) {
  needSheet();
  let marks = { lines: [], doses: [] };
  let moment = null;
  const yRange = (plot, low, high) => {
    const near = plot.scales.x.max - plot.scales.x.min < 6 * 3600;
    const values = marks.lines.map((line) => line.value);
    const all = [low, high, ...(near ? [] : values)].filter(Number.isFinite);
    if (all.length === 0) return [0, 1];
    const [min, max] = [Math.min(...all), Math.max(...all)];
    const pad = Math.max((max - min) * 0.07, near ? 1.5 : 0.5);
    return [min - pad, max + pad * 1.8];
  };
  const width = place.clientWidth || 320;
  const plot = new uPlot(
    {
      width,
      height: heightFor(width),
      legend: { show: false },
      tzDate: inZone,
      padding: [8, 32, 0, 0],
      scales: { x: { time: true, range: (_self, min, max) => [min, max] }, y: { range: yRange } },
      axes: [
        axis({ values: timeLabels, size: 48, space: 90 }),
        axis({ size: 62, values: (_self, splits) => splits.map((v) => `${u.number(v, v % 1 ? 1 : 0)} ${u.massUnit()}`) }),
      ],
      series: [{}, { stroke: colour('--water-deep'), width: 2, points: { show: false }, spanGaps: false }],
      cursor: { drag: { x: true, y: false }, points: { size: 8 } },
      hooks: {
        draw: [
          (self) => {
            drawLines(self, marks.lines);
            drawDoses(self, marks.doses);
            drawMoment(self, moment);
          },
        ],
        setCursor: [
          (self) => {
            const i = self.cursor.idx;
            if (i !== null && i !== undefined && self.data[1][i] !== null && self.cursor.left >= 0) options.moment(self.data[0][i], false);
          },
        ],
        setSelect: [
          (self) => {
            if (self.select.width > 4) setTimeout(() => options.moved(self.scales.x.min, self.scales.x.max));
          },
        ],
      },
    },
    [[], []],
    place,
  );
  makeMovable(plot, place, options.moved, options.home);
  makeMomentMovable(plot, place, () => moment, options.moment);
  plot.setScale('x', { min: options.from, max: options.to });
  const stop = keepFitting(plot, place);
  return {
    setData(at, massG) {
      const { min, max } = plot.scales.x;
      plot.setData([at, massG.map((g) => (g === null ? null : u.massValue(g)))], false);
      plot.setScale('x', { min, max });
    },
    setRange: (min, max) => plot.setScale('x', { min, max }),
    setMarks(lines, doses) {
      marks = { lines: lines.map((line) => ({ ...line, value: u.massValue(line.massG) })), doses };
      plot.setScale('x', { min: plot.scales.x.min, max: plot.scales.x.max });
    },
    setMoment(at) {
      moment = at;
      plot.redraw(false, false);
    },
    end: stop,
  };
}

const COURSE_PX = 170;

/** Times that are marked: shaded from top to bottom, with a bar above that is seen without colours. */
function drawSpans(plot, spans) {
  const { ctx, bbox } = plot;
  const xOf = (at) => plot.valToPos(Math.min(plot.scales.x.max, Math.max(plot.scales.x.min, at)), 'x', true);
  ctx.save();
  for (const span of spans) {
    const [x, width] = [xOf(span.from), Math.max(1, xOf(span.to) - xOf(span.from))];
    ctx.fillStyle = css(span.colour);
    ctx.globalAlpha = 0.14;
    ctx.fillRect(x, bbox.top, width, bbox.height);
    ctx.globalAlpha = 1;
    ctx.fillRect(x, bbox.top, width, 3 * devicePixelRatio);
  }
  ctx.restore();
}

/**
 * One quantity over time in `place`. `options`: {limit, limitLabel, steps, lowest}: a line not to be passed, whether values
 * hold until the next, and null where the scale need not begin at 0. Answers {setData(at, values, from, to), setSpans([{from, to, colour}]), end}.
 */
export function courseChart(place, options) {
  needSheet();
  const width = place.clientWidth || 320;
  const limit = Number.isFinite(options.limit) ? options.limit : null;
  let spans = [];
  const plot = new uPlot(
    {
      width,
      height: COURSE_PX,
      legend: { show: false },
      tzDate: inZone,
      padding: [8, 32, 0, 0],
      scales: {
        x: { time: true, range: (_self, min, max) => [min, max] },
        y: {
          range: (_self, low, high) => {
            if (options.lowest !== null) return [0, Math.max((high ?? 0) * 1.15, (limit ?? 0) * 1.15, 0.1)];
            const pad = Math.max(1, ((high ?? 0) - (low ?? 0)) * 0.1);
            return [(low ?? 0) - pad, (high ?? 0) + pad];
          },
        },
      },
      axes: [
        axis({ values: timeLabels, size: 48, space: 90 }),
        axis({ size: 62, space: 28, values: (_self, splits) => numbersAt(splits) }),
      ],
      series: [
        {},
        {
          stroke: colour('--water-deep'),
          width: 2,
          points: { size: 4 },
          spanGaps: false,
          paths: options.steps ? uPlot.paths.stepped({ align: 1 }) : undefined,
        },
      ],
      cursor: { drag: { x: false, y: false } },
      hooks: {
        drawClear: [(self) => drawSpans(self, spans)],
        draw: [(self) => limit !== null && drawLines(self, [{ name: 'dry', value: limit, label: options.limitLabel }])],
      },
    },
    [[], []],
    place,
  );
  return {
    setData(at, values, from, to) {
      plot.setData([at, values], false);
      plot.setScale('x', { min: from, max: to });
    },
    setSpans(marked) {
      spans = marked;
    },
    end: keepFitting(plot, place, COURSE_PX),
  };
}

/**
 * Curves over hours, laid over one another. `curves`: [{label, colour, dash, width, hours, values}], all on one x;
 * `bands`: [{low, high}] as indexes of curves. Answers {end}.
 */
export function overlayChart(place, hours, curves, bands, labels) {
  needSheet();
  const width = place.clientWidth || 320;
  const plot = new uPlot(
    {
      width,
      height: heightFor(width),
      legend: { show: false },
      padding: [8, 16, 0, 0],
      scales: { x: { time: false } },
      axes: [
        axis({
          label: labels.x,
          labelFont: `12px ${css('--sans')}`,
          values: (_self, splits) => splits.map((v) => `${u.number(v, v % 1 ? 1 : 0)}`),
        }),
        axis({ size: 66, values: (_self, splits) => splits.map((v) => `${u.number(v, v % 1 ? 1 : 0)} ${u.massUnit()}`) }),
      ],
      series: [
        {},
        ...curves.map((curve) => ({
          label: curve.label,
          stroke: curve.colour,
          width: curve.width,
          dash: curve.dash,
          points: { show: false },
          spanGaps: true,
        })),
      ],
      bands: bands.map((band) => ({ series: [band.high + 1, band.low + 1], fill: band.fill })),
      cursor: { drag: { x: true, y: false } },
      hooks: {
        draw: [(self) => drawNames(self, curves)],
      },
    },
    [hours, ...curves.map((curve) => curve.values)],
    place,
  );
  return { end: keepFitting(plot, place) };
}

/** Each curve's name at its end, so that none is told by colour alone. */
function drawNames(plot, curves) {
  const { ctx, bbox } = plot;
  const ratio = devicePixelRatio;
  ctx.save();
  ctx.font = `${11 * ratio}px ${css('--sans')}`;
  ctx.textAlign = 'right';
  ctx.textBaseline = 'alphabetic';
  const taken = [];
  curves.forEach((curve, i) => {
    if (!curve.name) return;
    const values = plot.data[i + 1];
    let last = values.length - 1;
    while (last >= 0 && (values[last] === null || values[last] === undefined)) last -= 1;
    if (last < 0) return;
    const x = Math.min(plot.valToPos(plot.data[0][last], 'x', true), bbox.left + bbox.width - 2 * ratio);
    let y = plot.valToPos(values[last], 'y', true) + 15 * ratio; // the curve comes from above
    while (taken.some((other) => Math.abs(other.x - x) < 70 * ratio && Math.abs(other.y - y) < 12 * ratio)) y += 12 * ratio;
    taken.push({ x, y });
    ctx.fillStyle = css('--ink');
    ctx.fillText(curve.name, x, y);
  });
  ctx.restore();
}
