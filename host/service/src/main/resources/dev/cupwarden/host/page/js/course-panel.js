// How a cup went over the range that its weight is shown for: what it loses for each unit of the air's thirst,
// what it was fed, and its salts.

import * as api from './api.js';
import { h, numberCol, regionTable, setText } from './dom.js';
import { curveWords } from './reading.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.course;
/** Air that takes up nearly nothing tells nothing of the cutting. */
const LEAST_VPD_KPA = 0.1;
const TABLE_ROWS = 40;

const CURVES = {
  rate: {
    values: (course) =>
      course.rate_g_h.map((rate, i) =>
        rate === null || !(course.vpd_kpa[i] >= LEAST_VPD_KPA) ? null : u.massValue(rate) / course.vpd_kpa[i],
      ),
  },
  fed: { values: (course) => course.fed.map((part) => part * 100), limit: () => 100, steps: true },
  salt: { values: (course) => course.salt_ms_per_cm, limit: (course) => course.salt_most_ms_per_cm, steps: true },
};
const NAMES = Object.keys(CURVES);

export function coursePanel(benchName, cupName) {
  const state = h('p', { class: 'quiet', role: 'status' }, t.loading);
  const parts = NAMES.map((name) => {
    const place = h('div', { class: 'course', role: 'img', 'aria-label': t.title[name](u.massUnit()) });
    const words = h('p', { class: 'number' });
    return { name, place, words, chart: null, el: h('div', null, h('h3', null, t.title[name](u.massUnit())), place, words) };
  });
  const body = h('tbody');
  const table = h(
    'details',
    { ontoggle: () => tellTable() },
    h('summary', null, t.table),
    regionTable(t.heading, [text.cup.colTime, ...NAMES.map((name) => numberCol(t.col[name](u.massUnit())))], body),
  );
  const el = h(
    'section',
    { class: 'panel' },
    h('h2', null, t.heading),
    state,
    parts.map((part) => part.el),
    table,
    h('p', { class: 'quiet' }, t.method),
  );
  let asked = 0;
  let course = null;

  async function show(from, to) {
    asked += 1;
    const mine = asked;
    try {
      const [answer, charts] = await Promise.all([
        api.course(benchName, cupName, new Date(from * 1000), new Date(to * 1000)),
        import('./chart.js'),
      ]);
      if (mine !== asked || !el.isConnected) return;
      course = { ...answer, curves: Object.fromEntries(NAMES.map((name) => [name, CURVES[name].values(answer)])) };
      setText(state, course.at.length === 0 ? t.none : '');
      state.hidden = course.at.length > 0;
      parts.forEach((part) => draw(part, charts, from, to));
      table.hidden = course.at.length === 0;
      tellTable();
    } catch (error) {
      if (mine === asked) {
        state.hidden = false;
        setText(state, t.failed(error.message));
      }
    }
  }

  function draw(part, charts, from, to) {
    const values = course.curves[part.name];
    part.el.hidden = course.at.length === 0;
    if (part.el.hidden) return;
    part.place.hidden = !values.some(Number.isFinite);
    if (part.place.hidden) {
      setText(part.words, t.unknown[part.name]);
      return;
    }
    const { limit, steps } = CURVES[part.name];
    part.chart ??= charts.courseChart(part.place, { limit: limit?.(course), steps, limitLabel: t.limit[part.name] });
    part.chart.setData(course.at, values, from, to);
    const words = curveWords(
      course.at,
      values,
      (at) => u.day(at * 1000),
      (value) => t.value[part.name](u, value),
    );
    setText(part.words, words);
    part.place.setAttribute('aria-label', `${t.title[part.name](u.massUnit())}: ${words}`);
  }

  function tellTable() {
    if (!table.open || !course) return;
    const step = Math.max(1, Math.ceil(course.at.length / TABLE_ROWS));
    const last = course.at.length - 1;
    body.replaceChildren(
      ...[...course.at.keys()]
        .filter((i) => (last - i) % step === 0)
        .reverse()
        .map((i) =>
          h(
            'tr',
            null,
            h('td', null, u.dayTime(course.at[i] * 1000)),
            NAMES.map((name) =>
              h(
                'td',
                { class: 'n' },
                Number.isFinite(course.curves[name][i]) ? u.number(course.curves[name][i], name === 'fed' ? 0 : 2) : '–',
              ),
            ),
          ),
        ),
    );
  }

  return { el, show, end: () => parts.forEach((part) => part.chart?.end()) };
}
