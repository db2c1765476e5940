// The days of the whole bench: what is to come in the next seven, what was given, and what the climate was.

import * as api from './api.js';
import { comingDays, dayAfter, dayOf, holdsOf, SPELLS, spellsOf, startOf, sumsBy, withoutForecast } from './days.js';
import { h, numberCol, regionTable, setText, toggles } from './dom.js';
import { compareNames, curveWords } from './reading.js';
import { store } from './store.js';
import { nameOfAlert, nameOfLimit } from './tables.js';
import { list, text } from './text.js';
import * as u from './units.js';

const t = text.days;
const DAY_MS = 24 * 3600e3;
const MOST_EVENTS = 2000;
const MOST_ORDERS = 200;
/** A winter's record begins with its first cutting, but not with one of a winter before. */
const LONGEST_WINTER_MS = 300 * DAY_MS;
const CURVES = ['air_c', 'root_c', 'outdoor_c', 'rh_pct', 'light_umol_m2_s'];

/** [from, to] in epoch ms of a range, seen from the bench's now. */
function spanOf(range, now, since) {
  const today = startOf(dayOf(now));
  if (range === 'today') return [today, now + 1];
  if (range === 'winter') return [Math.max(since ?? today, now - LONGEST_WINTER_MS), now + 1];
  return [startOf(dayOf(today - 5.5 * DAY_MS)), now + 1];
}

function comingPanel(benchName) {
  const days = h('ul', { class: 'days' });
  const unknown = h('p', { class: 'quiet' });
  const open = h('p', { class: 'quiet' });
  let shown = '';
  const waterWords = ({ at, held, now }) =>
    held.length > 0 ? t.heldBack(list(held.map(nameOfLimit))) : at <= now ? t.now : t.likely(u.clockTime(at));
  const words = {
    water: (items) => items.map((each) => h('p', null, h('strong', null, list(each.cups)), ` ${waterWords(each)}`)),
    empty: (item) => t.empty(item.tank, u.clockTime(item.at)),
    look: (item) => t.look(list(item.cups)),
    feed: (item) => t.feed(item.feed),
    dark: () => t.dark,
    light: () => t.light,
    release: (item) => t.release(item.cup, u.clockTime(item.at)),
  };

  /** Cups that are watered at the same hour stand on one line, those that are looked at too. */
  function dayItem({ day, items }, now) {
    const water = [];
    for (const item of items.filter(({ kind }) => kind === 'water')) {
      const last = water.at(-1);
      if (last && u.clockTime(last.at) === u.clockTime(item.at) && last.held.join() === item.held.join()) last.cups.push(item.cup);
      else water.push({ at: item.at, cups: [item.cup], held: item.held, now });
    }
    const look = items.filter(({ kind }) => kind === 'look').map(({ cup }) => cup);
    return h(
      'li',
      { 'data-day': day },
      h('h3', null, day === dayOf(now) ? t.today : u.day(startOf(day))),
      words.water(water),
      look.length > 0 ? h('p', null, words.look({ cups: look })) : null,
      items.filter(({ kind }) => !['water', 'look'].includes(kind)).map((item) => h('p', null, words[item.kind](item))),
      items.length === 0 ? h('p', { class: 'quiet' }, t.nothing) : null,
    );
  }

  return {
    el: h('section', { class: 'panel' }, h('h2', null, t.coming), days, unknown, open, h('p', { class: 'quiet' }, t.comingNote)),
    show(tanks) {
      const bench = store.bench(benchName);
      const coming = comingDays(bench, tanks);
      const blind = withoutForecast(bench).sort(compareNames);
      const hours = bench.setup?.watering?.window;
      const key = JSON.stringify([
        coming.map((day) => [day.day, day.items.map((item) => ({ ...item, at: u.dayTime(item.at) }))]),
        blind,
        hours,
      ]);
      if (key === shown) return;
      shown = key;
      days.replaceChildren(...coming.map((day) => dayItem(day, bench.now)));
      setText(unknown, blind.length > 0 ? t.blind(list(blind)) : '');
      unknown.hidden = blind.length === 0;
      setText(open, hours ? (hours.kind === 'hours' ? t.hours(hours.from.slice(0, 5), hours.to.slice(0, 5)) : t.daylight) : '');
    },
  };
}

/** The buttons that choose a range: `chosen()` is the one that is shown. */
function rangeRow(chosen, choose) {
  const { buttons } = toggles(
    ['today', 'week', 'winter'],
    (each) => t.range[each],
    (each) => each === chosen(),
    choose,
  );
  return h('div', { class: 'row', role: 'group', 'aria-label': text.cup.ranges }, buttons);
}

function givenPanel(benchName, sinceOf) {
  let range = 'today';
  let asked = 0;
  const total = h('p', { role: 'status' }, text.course.loading);
  const byCup = h('tbody');
  const byKind = h('tbody');
  const cols = (first) => [first, numberCol(t.col.plain), numberCol(t.col.feed), numberCol(t.col.passes)];
  const cupTable = regionTable(t.byCup, cols(t.col.cup), byCup);
  const kindTable = regionTable(t.byKind, cols(t.col.kind), byKind);
  const ranges = rangeRow(
    () => range,
    (each) => {
      range = each;
      load();
    },
  );
  const row = (name, sum) =>
    h(
      'tr',
      null,
      h('th', { scope: 'row' }, name),
      h('td', { class: 'n' }, u.volume(sum.plain_ml)),
      h('td', { class: 'n' }, u.volume(sum.feed_ml)),
      h('td', { class: 'n' }, u.number(sum.passes)),
    );

  async function load() {
    asked += 1;
    const mine = asked;
    try {
      const bench = store.bench(benchName);
      const [from, to] = spanOf(range, bench.now, await sinceOf());
      const given = await api.given(benchName, new Date(from), new Date(to));
      if (mine !== asked) return;
      const sum = sumsBy(
        given.map((each) => ({ ...each, all: true })),
        'all',
      ).get(true);
      const when = range === 'today' ? t.range.today : t.since(u.day(from));
      setText(total, sum ? t.total(when, u.volume(sum.plain_ml), u.volume(sum.feed_ml), sum.passes) : t.noneGiven(when));
      const cups = sumsBy(given, 'cup');
      byCup.replaceChildren(
        ...[...cups.keys()].sort((a, b) => compareNames(a ?? '', b ?? '')).map((cup) => row(cup ?? t.noCup, cups.get(cup))),
      );
      byKind.replaceChildren(...[...sumsBy(given, 'why')].map(([why, each]) => row(text.why[why] ?? why, each)));
      cupTable.hidden = kindTable.hidden = given.length === 0;
    } catch (error) {
      if (mine === asked) setText(total, t.failed(error.message));
    }
  }
  return {
    el: h('section', { class: 'panel', 'data-part': 'given' }, h('h2', null, t.given), ranges, total, kindTable, cupTable),
    load,
  };
}

function climatePanel(benchName, sinceOf) {
  let range = 'week';
  let asked = 0;
  const state = h('p', { class: 'quiet', role: 'status' }, text.course.loading);
  const parts = CURVES.map((name) => {
    const place = h('div', { class: 'course', role: 'img', 'aria-label': t.curve[name](u.tempUnit()) });
    const words = h('p', { class: 'number' });
    return {
      name,
      place,
      words,
      chart: null,
      el: h('div', { 'data-curve': name }, h('h3', null, t.curve[name](u.tempUnit())), place, words),
    };
  });
  const marks = h('ul', { class: 'says' });
  const ranges = rangeRow(
    () => range,
    (each) => {
      range = each;
      load();
    },
  );
  const shown = (name, value) => (name.endsWith('_c') ? u.tempValue(value) : value);
  const said = (name, value) => (name.endsWith('_c') ? u.temp(value) : t.value[name](u.number(value)));

  function draw(part, curve, spans, charts, from, to) {
    const known = curve.value.length > 0;
    part.place.hidden = !known;
    part.el.hidden = !known && part.name === 'outdoor_c'; // Few benches have that thermometer.
    if (!known) {
      setText(part.words, t.unread);
      return;
    }
    part.chart ??= charts.courseChart(part.place, { lowest: part.name.endsWith('_c') ? null : 0 });
    part.chart.setSpans(spans);
    part.chart.setData(
      curve.at,
      curve.value.map((value) => shown(part.name, value)),
      from / 1000,
      to / 1000,
    );
    const words = curveWords(
      curve.at,
      curve.value,
      (at) => dayOf(at * 1000),
      (value) => said(part.name, value),
    );
    setText(part.words, words);
    part.place.setAttribute('aria-label', `${t.curve[part.name](u.tempUnit())}: ${words}`);
  }

  async function load() {
    asked += 1;
    const mine = asked;
    try {
      const bench = store.bench(benchName);
      const [from, to] = spanOf(range, bench.now, await sinceOf());
      const [climate, events, orders, charts] = await Promise.all([
        api.climate(benchName, new Date(from), new Date(to)),
        api.events(benchName, { kind: 'alert', from: new Date(from - 7 * DAY_MS), limit: MOST_EVENTS }),
        api.orders(benchName, MOST_ORDERS),
        import('./chart.js'),
      ]);
      if (mine !== asked || !marks.isConnected) return;
      const within = (span) => span.from < to && (span.to ?? Infinity) > from;
      const spells = spellsOf(events, SPELLS).filter(within);
      const holds = holdsOf(orders).filter(within);
      const spans = [
        ...spells.map((spell) => ({ from: spell.from / 1000, to: (spell.to ?? to) / 1000, colour: '--clay' })),
        ...holds.map((hold) => ({ from: hold.from / 1000, to: Math.min(hold.to, to) / 1000, colour: '--aside' })),
      ];
      parts.forEach((part) => draw(part, climate[part.name], spans, charts, from, to));
      setText(state, '');
      state.hidden = true;
      const when = (span) =>
        span.to === null || span.to > bench.now ? t.from(u.dayTime(span.from)) : t.fromTo(u.dayTime(span.from), u.dayTime(span.to));
      marks.replaceChildren(
        ...spells.map((spell) =>
          h('li', { class: 'stop' }, h('strong', null, nameOfAlert(spell.code)), spell.cup ? ` (${spell.cup})` : '', `: ${when(spell)}`),
        ),
        ...holds.map((hold) =>
          h('li', { class: 'held' }, h('strong', null, t.hold), ` (${hold.cups ? list(hold.cups) : text.bench.heldAll}): ${when(hold)}`),
        ),
        ...(spells.length + holds.length === 0 ? [h('li', { class: 'quiet' }, t.noSpells)] : []),
      );
    } catch (error) {
      if (mine !== asked) return;
      state.hidden = false;
      setText(state, t.failed(error.message));
    }
  }
  return {
    el: h(
      'section',
      { class: 'panel', 'data-part': 'climate' },
      h('h2', null, t.climate),
      ranges,
      state,
      marks,
      parts.map((part) => part.el),
    ),
    load,
    end: () => parts.forEach((part) => part.chart?.end()),
  };
}

export function daysView(benchName) {
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.heading);
  let since; // when the first cutting came, epoch ms; undefined until the host has told
  async function sinceOf() {
    if (since === undefined) {
      const starts = (await api.cuttings(benchName)).map((cutting) => Date.parse(cutting.since));
      since = starts.length > 0 ? Math.min(...starts) : null;
    }
    return since;
  }
  let tanks = [];
  const coming = comingPanel(benchName);
  const given = givenPanel(benchName, sinceOf);
  const climate = climatePanel(benchName, sinceOf);
  const el = h('section', { class: 'view' }, heading, coming.el, h('div', { class: 'panels even' }, given.el, climate.el));
  let day = dayAfter(dayOf(store.bench(benchName).now));

  /** Tanks are told where the bench has told how it is set up. */
  async function load() {
    given.load();
    climate.load();
    try {
      tanks = store.bench(benchName).setup ? await api.tanks(benchName) : [];
    } catch {
      tanks = []; // The tanks' own view tells why.
    }
    coming.show(tanks);
  }
  coming.show(tanks);
  setTimeout(load);
  return {
    el,
    title: t.title,
    heading,
    onChange(changes) {
      const bench = store.bench(benchName);
      if (changes.all || changes.benches.has(benchName)) coming.show(tanks);
      const turned = day !== dayAfter(dayOf(bench.now));
      day = dayAfter(dayOf(bench.now));
      if (changes.all || turned) load();
      else if (changes.events.some(({ bench: name, event }) => name === benchName && event.kind === 'dose')) given.load();
    },
    leave: climate.end,
  };
}
