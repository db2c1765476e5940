// Dry-downs laid over one another from the moment watering ended: a rooting cup dries on a steeper line.

import * as api from './api.js';
import { h, regionTable, setText, toggles } from './dom.js';
import { compareNames } from './reading.js';
import { store } from './store.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.drydowns;
const DAYS = [7, 21, 60, 150];
const MOST_EACH = 5;
const MOST_CUPS = 4;
const MOST_DOSES = 2000;
const SHOWN_AT_FIRST = 2;
const STEP_H = 0.5;
const HUES = ['--water-deep', '--clay', '--aside', '--calm'];
const DASHES = [[], [8, 4], [3, 3], [10, 3, 2, 3]];

/** A dry-down's mass change on a grid of half hours. */
function onGrid(dryDown, grid) {
  let j = 0;
  const { hours, mass_g: massG } = dryDown;
  return grid.map((hour) => {
    if (hour > hours.at(-1)) return null;
    while (hours[j + 1] < hour) j += 1;
    const [h0, h1] = [hours[j], hours[j + 1] ?? hours[j]];
    const part = h1 > h0 ? (hour - h0) / (h1 - h0) : 0;
    const mass = massG[j] + part * ((massG[j + 1] ?? massG[j]) - massG[j]);
    return u.massValue(mass - massG[0]);
  });
}

export function drydownsView(benchName, chosenNames) {
  const bench = store.bench(benchName);
  const names = [...bench.cups.keys()].sort(compareNames);
  const chosen = new Set(chosenNames.length > 0 ? chosenNames[0].split(',').filter((name) => bench.cups.has(name)) : []);
  let days = 21;
  let asked = 0;
  let chart = null;
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const place = h('div', { class: 'chart', role: 'img', 'aria-label': t.chartLabel });
  const state = h('p', { role: 'status' }, t.loading);
  const told = h('ul', { class: 'says' });
  const shade = h('p', { class: 'quiet' }, t.band);
  const body = h('tbody');
  const spans = toggles(
    DAYS,
    (each) => t.days[each],
    (each) => each === days,
    (each) => {
      days = each;
      load();
    },
  );
  const picks = toggles(
    names,
    (name) => name,
    (name) => chosen.has(name),
    (name) => {
      if (chosen.has(name)) chosen.delete(name);
      else if (chosen.size < MOST_CUPS) chosen.add(name);
      load();
    },
  );
  const tablePanel = h(
    'section',
    { class: 'panel' },
    h('h2', null, t.table),
    regionTable(t.table, [t.colCup, t.colFrom, t.colSpan, t.lost, t.colRate, t.colHalf, t.colFit], body),
    h('p', { class: 'quiet' }, t.method),
  );
  const el = h(
    'section',
    { class: 'view' },
    heading,
    h('p', null, t.lead),
    h(
      'div',
      { class: 'panels' },
      h('section', { class: 'panel' }, h('h2', null, t.of), place, state, told, shade),
      h(
        'div',
        null,
        h(
          'section',
          { class: 'panel' },
          h('h2', null, t.cups),
          h('p', { class: 'quiet' }, t.atMost(MOST_CUPS)),
          h('div', { class: 'row', role: 'group', 'aria-label': t.cups }, picks.buttons),
          h('h3', null, t.weeks),
          h('div', { class: 'row', role: 'group', 'aria-label': t.weeks }, spans.buttons),
        ),
      ),
    ),
    tablePanel,
  );

  async function dryDownsOf(name) {
    const from = new Date(store.bench(benchName).now - days * 86400e3);
    const { dry_downs: all, change } = await api.dryDowns(benchName, name, from);
    return { cup: name, change, all: all.map((each) => ({ ...each, cup: name })) };
  }

  async function load() {
    asked += 1;
    const mine = asked;
    if (chosen.size === 0) return show([], t.pickOne);
    setText(state, t.loading);
    try {
      const sets = await Promise.all([...chosen].sort(compareNames).map(dryDownsOf));
      if (mine === asked) await show(sets, '');
    } catch (error) {
      if (mine === asked) setText(state, t.failed(error.message));
    }
    return undefined;
  }

  /** First, last, and evenly between. */
  function some(set) {
    if (set.length <= MOST_EACH) return set;
    return Array.from({ length: MOST_EACH }, (_none, i) => set[Math.round((i * (set.length - 1)) / (MOST_EACH - 1))]);
  }

  async function show(sets, problem) {
    chart?.end();
    chart = null;
    const all = sets.flatMap((set) => set.all);
    body.replaceChildren(
      ...all
        .slice()
        .sort((a, b) => Date.parse(b.from) - Date.parse(a.from))
        .map(row),
    );
    told.replaceChildren(...sets.filter((set) => set.all.length > 0).map(verdict));
    const bare = [...chosen].filter((name) => !all.some((dryDown) => dryDown.cup === name)).sort(compareNames);
    setText(state, problem || (all.length === 0 ? t.none : bare.length > 0 ? t.cupNone(bare) : ''));
    for (const part of [place, shade, tablePanel]) part.hidden = all.length === 0;
    if (all.length === 0) return;
    const { overlayChart, colour } = await import('./chart.js');
    if (!place.isConnected) return;
    const longest = Math.max(...all.map((each) => each.hours.at(-1)));
    const grid = Array.from({ length: Math.floor(longest / STEP_H) + 1 }, (_none, i) => i * STEP_H);
    const curves = [];
    const bands = [];
    sets.forEach((set, cupIndex) => {
      const shown = some(set.all);
      shown.forEach((each, i) => {
        const newest = i === shown.length - 1;
        curves.push({
          label: each.cup,
          colour: colour(HUES[cupIndex]),
          dash: DASHES[cupIndex],
          width: newest ? 3 : 1.1,
          values: onGrid(each, grid),
          name: i === 0 || newest ? `${each.cup} ${u.day(Date.parse(each.from))}` : null,
        });
        if (newest && each.fit) bands.push(...band(each, grid, curves, cupIndex, colour));
      });
    });
    chart = overlayChart(place, grid, curves, bands, { x: t.hours });
  }

  function band(each, grid, curves, cupIndex, colour) {
    const { asymptote_g: end, amplitude_g: amplitude, rate_per_h: rate, rsd_g: rsd } = each.fit;
    const bound = (sign) =>
      grid.map((hour) =>
        hour > each.hours.at(-1) ? null : u.massValue(end + amplitude * Math.exp(-rate * hour) + sign * 2 * rsd - each.mass_g[0]),
      );
    const invisible = { label: '', colour: 'transparent', width: 0, dash: [] };
    curves.push({ ...invisible, values: bound(-1) }, { ...invisible, values: bound(1) });
    return [{ low: curves.length - 2, high: curves.length - 1, fill: () => `${colour(HUES[cupIndex])()}33` }];
  }

  function row(each) {
    const { fit } = each;
    return h(
      'tr',
      null,
      h('td', null, each.cup),
      h('td', null, u.dayTime(Date.parse(each.from)), each.start_seen ? '' : ` ${t.cutOff}`),
      h('td', null, u.span(Date.parse(each.to) - Date.parse(each.from))),
      h('td', null, u.mass(each.lost_g)),
      h('td', null, u.rate(each.loss_g_h_kpa)),
      h('td', null, !fit ? t.refused : fit.half_life_h === null ? t.straight : u.span(fit.half_life_h * 3600e3)),
      h('td', null, fit ? u.mass(fit.rsd_g, 2) : '–'),
    );
  }

  function verdict({ cup, change }) {
    if (!change) return h('li', null, t.tooFew(cup));
    const range = `${u.number(change.low, 2)}–${u.number(change.high, 2)}`;
    return h(
      'li',
      { class: { less: 'stop', more: 'go' }[change.verdict] },
      t.change[change.verdict](cup, u.number(change.factor, 2), range),
    );
  }

  /** Without a wish of the reader: the cups watered most often, for they have most to show. */
  async function begin() {
    if (chosen.size === 0) {
      try {
        const from = new Date(bench.now - days * 86400e3);
        const doses = await api.events(benchName, { kind: 'dose', from, limit: MOST_DOSES });
        const passes = new Map();
        for (const { cup } of doses) if (bench.cups.has(cup)) passes.set(cup, (passes.get(cup) ?? 0) + 1);
        const often = [...passes.keys()].sort((a, b) => passes.get(b) - passes.get(a) || compareNames(a, b));
        (often.length > 0 ? often : names).slice(0, SHOWN_AT_FIRST).forEach((name) => chosen.add(name));
        picks.show();
      } catch (error) {
        setText(state, t.failed(error.message));
        return;
      }
    }
    load();
  }

  setTimeout(begin);
  return { el, title: t.title, heading, leave: () => chart?.end() };
}
