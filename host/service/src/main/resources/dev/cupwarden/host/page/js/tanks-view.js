// What is left in the tanks, how long it lasts, what to mix next, and which feed when.

import * as api from './api.js';
import { freshId, h, s, setText } from './dom.js';
import { concentrationOf } from './reading.js';
import { store } from './store.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.tanks;
const DAY_MS = 86400e3;
const YEAR_MS = 366 * DAY_MS;
const ML_PER_L = 1000;
const ML_PER_US_GAL = 3785.411784; // exact
const MONTHS_SHOWN = 9;
const MONTHS_BEFORE = 1;
const SETTLE_MS = 250;
const OF_FEED = ['feed-change', 'tank-unsuited'];

function gauge(ml, sizeMl) {
  return s(
    'svg',
    { class: 'gauge', viewBox: '0 0 100 4', preserveAspectRatio: 'none', 'aria-hidden': 'true', focusable: 'false' },
    s('rect', { x: 0, y: 0, height: 4, width: Math.max(0, Math.min(100, (100 * ml) / sizeMl)) }),
  );
}

function useWords(tank) {
  if (tank.use_ml_per_d === null) return t.useSoon;
  const over = u.span(tank.use_over_s * 1000);
  return tank.use_ml_per_d > 0 ? t.useDay(u.volume(tank.use_ml_per_d), over) : t.noUse(over);
}

function lastsWords(tank, now) {
  if (!tank.lasts_until || tank.left_ml === null) return null;
  const until = Date.parse(tank.lasts_until);
  return until - now > YEAR_MS ? t.lastsLong : t.lasts(u.span(until - now), u.date(until));
}

function holdsPart(bench, tank) {
  const held = concentrationOf(bench.setup, tank.feed, tank.strength);
  return held ? h('p', { class: 'quiet' }, t.holds(u.number(held.nMgPerL), u.number(held.ecMsPerCm, 2))) : null;
}

function tankPanel(bench, tank) {
  const lasts = lastsWords(tank, bench.now);
  return h(
    'section',
    { class: 'panel', 'data-tank': tank.tank },
    h('h2', null, tank.tank),
    h('p', { class: 'quiet' }, tank.feed ? t.feedAt(tank.feed, u.number(tank.strength, 2)) : t.plain),
    holdsPart(bench, tank),
    h(
      'p',
      null,
      tank.left_ml === null
        ? t.unread(u.tank(tank.size_ml))
        : [h('strong', null, u.tank(tank.left_ml)), ` ${t.of} ${u.tank(tank.size_ml)}`],
    ),
    tank.left_ml === null ? null : gauge(tank.left_ml, tank.size_ml),
    h('p', null, useWords(tank)),
    lasts ? h('p', null, lasts) : null,
    tank.mix_most_ml && tank.mix_most_ml < tank.size_ml ? h('p', null, t.mixMost(u.tank(tank.mix_most_ml))) : null,
    h(
      'p',
      { class: 'row' },
      h('a', { class: 'button', href: `#/${encodeURIComponent(bench.name)}/do/filled/${encodeURIComponent(tank.tank)}` }, t.fill),
    ),
  );
}

/** A bench that has not told its set-up still tells what its tanks hold. */
const onlyLeft = (bench) =>
  Object.entries(bench.status?.tank_ml ?? {}).map(([name, ml]) =>
    h('section', { class: 'panel', 'data-tank': name }, h('h2', null, name), h('p', null, h('strong', null, u.tank(ml)))),
  );

/** The feed that the plan names for now, or null. */
const plannedFeed = (bench) => (bench.setup.feeding?.plan ?? []).filter((step) => noonOf(step.from) <= bench.now).at(-1)?.feed ?? null;

/** What to weigh for a volume at a strength, as the host reckons it. */
function mixPanel(bench, mixMostMl) {
  const feeds = bench.setup?.feeds ?? {};
  const title = h('h2', null, t.mix);
  const caution = h('p', { class: 'quiet' }, text.cautions.feedItems[1], ' ', h('a', { href: '#/cautions' }, text.cautions.short));
  if (Object.keys(feeds).length === 0) return h('section', { class: 'panel' }, title, h('p', { class: 'quiet' }, t.noFeeds), caution);
  const gallons = u.choice().volume === 'floz';
  const mlPerUnit = gallons ? ML_PER_US_GAL : ML_PER_L;
  const fed = Object.values(bench.setup.tanks).find((tank) => tank.feed);
  const chosen = plannedFeed(bench) ?? fed?.feed;
  const out = h('p', { role: 'status' }, t.ready);
  const bag = h('p', { class: 'quiet' });
  const input = (value) =>
    h('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', value, id: freshId('mix'), oninput: () => soon() });
  const size = fed?.size_ml ?? 4 * ML_PER_L;
  const keepsMl = mixMostMl > 0 && mixMostMl < size ? mixMostMl : null; // more would spoil before it is used
  const volume = input(String(Math.floor((100 * (keepsMl ?? size)) / mlPerUnit) / 100));
  const strength = input(String(fed?.strength ?? 0.5));
  const pick = h(
    'select',
    { id: freshId('mix'), onchange: () => reckon() },
    Object.keys(feeds).map((name) => h('option', { value: name, selected: name === chosen }, name)),
  );
  const row = (label, control) => h('div', { class: 'field' }, h('label', { for: control.id }, h('strong', null, label)), control);
  const numberIn = (control) => (control.value.trim() === '' ? NaN : Number(control.value.replace(',', '.')));
  let timer = null;
  let asked = 0;

  function soon() {
    clearTimeout(timer);
    timer = setTimeout(reckon, SETTLE_MS);
  }
  async function reckon() {
    asked += 1;
    const mine = asked;
    const feed = feeds[pick.value];
    setText(bag, t.bag(u.weighed(feed.label_g_per_l), u.weighed(feed.spoon_g)));
    const fields = { feed: pick.value, volume_ml: numberIn(volume) * mlPerUnit, strength: numberIn(strength) };
    if (!(fields.volume_ml > 0 && fields.strength > 0)) {
      setText(out, t.ready);
      return;
    }
    let words;
    try {
      const mix = await api.recipe(bench.name, fields);
      words = [
        t.result(u.weighed(mix.feed_g), mix.spoons),
        t.resultEc(u.number(mix.ec_ms_per_cm, 2), u.number(mix.water_ec_ms_per_cm, 2)),
        t.resultN(...[mix.n_mg_per_l, mix.p_mg_per_l, mix.k_mg_per_l].map((mg) => u.number(mg))),
        mix.concentrate ? t.concentrate : t.order,
      ].join(' ');
    } catch (error) {
      words = t.mixFailed(error.message);
    }
    if (mine === asked) setText(out, words);
  }
  const el = h(
    'section',
    { class: 'panel' },
    title,
    h('p', { class: 'quiet' }, t.mixLead),
    row(t.feed, pick),
    row(t.volume(gallons ? t.gallons : t.litres), volume),
    keepsMl ? h('p', { class: 'quiet' }, t.mixMost(u.tank(keepsMl))) : null,
    row(t.strength, strength),
    bag,
    out,
    caution,
  );
  reckon();
  return el;
}

/** Month and day of "--12-01" or "12-01", as a number to compare by. */
const monthDay = (words) => {
  const [month, day] = words.replace(/^--/, '').split('-').map(Number);
  return month * 100 + day;
};

function isDark(pause, at) {
  if (!pause) return false;
  const now = (at.getMonth() + 1) * 100 + at.getDate();
  const [from, until] = [monthDay(pause.from), monthDay(pause.until)];
  return from <= until ? now >= from && now <= until : now >= from || now <= until;
}

const noonOf = (day) => new Date(`${day}T12:00`).getTime();

/** A month's days as runs of the same feed: [{first, last, what}]. */
function runsOf(feeding, first) {
  const runs = [];
  for (let day = new Date(first); day.getMonth() === first.getMonth(); day.setDate(day.getDate() + 1)) {
    const planned = (feeding.plan ?? []).filter((step) => noonOf(step.from) <= day.getTime()).at(-1)?.feed;
    const what = isDark(feeding.pause, day) ? t.dark : (planned ?? t.noneYet);
    if (runs.at(-1)?.what === what) runs.at(-1).last = day.getDate();
    else runs.push({ first: day.getDate(), last: day.getDate(), what });
  }
  return runs;
}

function monthItem(feeding, first, isNow) {
  const runs = runsOf(feeding, first);
  const words = (run) => (runs.length === 1 ? run.what : t.planDays(run.first, run.last, run.what));
  return h(
    'li',
    { 'aria-current': isNow ? 'date' : null },
    h('strong', null, u.month(first.getTime())),
    isNow ? ` (${t.planNow})` : '',
    runs.map((run) => h('span', { class: run.what === t.dark ? 'dark' : 'fed' }, words(run))),
  );
}

function planPanel(bench) {
  const feeding = bench.setup?.feeding;
  const plan = feeding?.plan ?? [];
  const title = h('h2', null, t.plan);
  const unsuited = bench.alerts.find((alert) => OF_FEED.includes(alert.code));
  if (plan.length === 0 && !feeding?.pause) return h('section', { class: 'panel' }, title, h('p', { class: 'quiet' }, t.planNone));
  const next = plan.find((step) => noonOf(step.from) > bench.now);
  const now = new Date(bench.now);
  const months = Array.from({ length: MONTHS_SHOWN }, (_none, i) =>
    monthItem(feeding, new Date(now.getFullYear(), now.getMonth() - MONTHS_BEFORE + i, 1, 12), i === MONTHS_BEFORE),
  );
  const dayWords = (words) => u.dayOfYear(Math.floor(monthDay(words) / 100), monthDay(words) % 100);
  return h(
    'section',
    { class: 'panel' },
    title,
    next ? h('p', null, h('strong', null, t.planNext(u.date(noonOf(next.from)), u.span(noonOf(next.from) - bench.now), next.feed))) : null,
    unsuited ? h('p', { class: 'error' }, unsuited.do) : null,
    h(
      'ul',
      { class: 'plain' },
      plan.map((step) => h('li', null, t.planFrom(u.date(noonOf(step.from)), step.feed))),
    ),
    feeding?.pause ? h('p', null, t.planPause(dayWords(feeding.pause.from), dayWords(feeding.pause.until))) : null,
    h('h3', null, t.planCalendar),
    h('ul', { class: 'months' }, months),
  );
}

/** Nothing where the water is good, or nobody told of it. */
function waterPanel(bench) {
  const advice = bench.setup?.water_advice ?? [];
  if (advice.length === 0) return null;
  return h(
    'section',
    { class: 'panel' },
    h('h2', null, t.water),
    advice.map((words) => h('p', null, words)),
  );
}

export function tanksView(benchName) {
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const tanks = h('div', { class: 'panels even' });
  const problem = h('p', { class: 'error', role: 'status' });
  const bench = store.bench(benchName);
  const plans = h('div', { class: 'panels even' });
  const el = h('section', { class: 'view' }, heading, problem, tanks, plans);
  let asked = 0;
  let planned = null;
  let mixMostMl; // undefined until the host has told what is used

  /** Anew only where something of it has changed: what is typed there must stay. */
  function plan(told) {
    if (told) mixMostMl = told.find((tank) => tank.feed)?.mix_most_ml ?? null;
    const key = JSON.stringify([
      bench.setup?.feeds,
      bench.setup?.feeding,
      bench.setup?.water_advice,
      bench.alerts.filter((alert) => OF_FEED.includes(alert.code)),
      mixMostMl === undefined,
    ]);
    if (key === planned) return;
    planned = key;
    plans.replaceChildren(...[mixPanel(bench, mixMostMl), planPanel(bench), waterPanel(bench)].filter(Boolean));
  }

  async function load() {
    asked += 1;
    const mine = asked;
    let panels = onlyLeft(bench);
    let words = '';
    if (bench.setup) {
      try {
        const told = await api.tanks(benchName);
        plan(told);
        panels = told.map((tank) => tankPanel(bench, tank));
      } catch (error) {
        words = t.failed(error.message);
      }
    }
    if (mine !== asked) return;
    setText(problem, words);
    const focused = tanks.contains(document.activeElement)
      ? document.activeElement.closest('[data-tank]')?.getAttribute('data-tank')
      : null;
    tanks.replaceChildren(...(panels.length > 0 ? panels : [h('p', { class: 'quiet' }, t.none)]));
    if (focused) tanks.querySelector(`[data-tank="${CSS.escape(focused)}"] a`)?.focus({ preventScroll: true });
  }
  plan();
  load();
  return {
    el,
    title: t.title,
    heading,
    onChange(changes) {
      plan();
      if (changes.all || changes.events.some(({ event }) => event.kind === 'dose' || event.kind === 'receipt')) load();
    },
  };
}
