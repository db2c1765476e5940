// What is left in the tanks, how long it lasts, what to mix next, and which feed when.

import * as api from './api.js';
import { freshId, h, s, setText } from './dom.js';
import { store } from './store.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.tanks;
const USE_DAYS = 7;
const DAY_MS = 86400e3;
const L_PER_US_GAL = 3.785411784;
const MONTHS_SHOWN = 9;

const isFeed = (tank, name) => (tank ? tank.strength > 0 || Boolean(tank.feed) : /feed/i.test(name));

function gauge(ml, sizeMl) {
  return s('svg', { class: 'gauge', viewBox: '0 0 100 4', preserveAspectRatio: 'none', 'aria-hidden': 'true', focusable: 'false' }, s('rect', { x: 0, y: 0, height: 4, width: Math.max(0, Math.min(100, (100 * ml) / sizeMl)) }));
}

function tankPanel(bench, name, mlPerDay) {
  const ml = bench.status?.tank_ml?.[name] ?? null;
  const tank = bench.setup?.tanks?.[name];
  const use = !mlPerDay ? t.noUse : t.useDay(u.volume(mlPerDay));
  const lasts = mlPerDay && ml !== null ? t.lasts(u.span((ml / mlPerDay) * DAY_MS), u.date(bench.now + (ml / mlPerDay) * DAY_MS)) : null;
  const content = tank?.feed ? t.feedAt(tank.feed, u.number(tank.strength, 2)) : tank ? t.plain : null;
  return h('section', { class: 'panel' }, h('h2', null, name), content ? h('p', { class: 'quiet' }, content) : null,
    h('p', null, h('strong', null, ml === null ? t.unread : u.tank(ml)), tank && ml !== null ? ` / ${u.tank(tank.size_ml)}` : ''),
    tank && ml !== null ? gauge(ml, tank.size_ml) : null,
    h('p', null, use), lasts ? h('p', null, lasts) : null,
    h('p', { class: 'row' }, h('a', { class: 'button', href: `#/${encodeURIComponent(bench.name)}/do/filled` }, t.fill)));
}

/** Grams and spoons for a volume of water at a strength; the label's numbers are the grower's. */
function mixPanel(bench) {
  const feeds = Object.entries(bench.setup?.feeds ?? {});
  const gallons = u.choice().volume === 'floz';
  const out = h('p', { role: 'status' }, t.ready);
  const input = (value) => h('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', value, id: freshId('mix'), oninput: () => reckon() });
  const fields = { volume: input(gallons ? '1' : '4'), strength: input('0.5'), label: input(''), spoon: input(''), ec: input('') };
  const pick = h('select', { id: freshId('mix'), onchange: () => take() }, feeds.map(([name]) => h('option', { value: name }, name)));
  const row = (label, control) => h('div', { class: 'field' }, h('label', { for: control.id }, h('strong', null, label)), control);

  function take() {
    const feed = bench.setup?.feeds?.[pick.value];
    fields.label.value = feed?.label_g_per_l ?? '';
    fields.spoon.value = feed?.spoon_g ?? '';
    fields.ec.value = feed?.ec_ms_per_cm_per_g_per_l ?? '';
    reckon();
  }
  function reckon() {
    const value = (name) => (fields[name].value.trim() === '' ? NaN : Number(fields[name].value.replace(',', '.')));
    const litres = value('volume') * (gallons ? L_PER_US_GAL : 1);
    const gPerL = value('label') * value('strength');
    if (!(litres > 0 && gPerL > 0)) return setText(out, t.ready);
    const spoons = value('spoon') > 0 ? u.number((litres * gPerL) / value('spoon'), 1) : null;
    const words = [t.result(u.mass(litres * gPerL, 1), spoons), value('ec') > 0 ? t.resultEc(u.number(gPerL * value('ec'), 2)) : '', t.order];
    return setText(out, words.filter(Boolean).join(' '));
  }
  const el = h('section', { class: 'panel' }, h('h2', null, t.mix), h('p', { class: 'quiet' }, t.mixLead),
    feeds.length > 0 ? row(t.feed, pick) : null, row(t.volume(gallons ? t.gallons : t.litres), fields.volume), row(t.strength, fields.strength),
    row(t.label, fields.label), row(t.spoon, fields.spoon), row(t.ec, fields.ec), out,
    h('p', { class: 'quiet' }, text.cautions.feedItems[1], ' ', h('a', { href: '#/cautions' }, text.cautions.short)));
  take();
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

function planPanel(bench) {
  const feeding = bench.setup?.feeding;
  const plan = feeding?.plan ?? [];
  const title = h('h2', null, t.plan);
  if (plan.length === 0 && !feeding?.pause) return h('section', { class: 'panel' }, title, h('p', { class: 'quiet' }, t.planNone));
  const dayMs = (step) => new Date(`${step.from}T12:00`).getTime();
  const feedOn = (ms) => plan.filter((step) => dayMs(step) <= ms).at(-1)?.feed;
  const now = new Date(bench.now);
  const months = Array.from({ length: MONTHS_SHOWN }, (none, i) => {
    const first = new Date(now.getFullYear(), now.getMonth() - 2 + i, 1);
    const last = new Date(first.getFullYear(), first.getMonth() + 1, 0);
    const feeds = [...new Set([feedOn(first.getTime()), feedOn(last.getTime())].filter(Boolean))];
    const dark = isDark(feeding?.pause, first) || isDark(feeding?.pause, new Date(first.getFullYear(), first.getMonth(), 15));
    return h('li', { 'aria-current': i === 2 ? 'date' : null }, h('strong', null, u.month(first.getTime() + 43200e3)), i === 2 ? ` (${t.planNow})` : '',
      h('br'), feeds.join(' → ') || '–', dark ? h('span', { class: 'dark' }, h('br'), t.dark) : null);
  });
  const dayWords = (words) => u.dayOfYear(Math.floor(monthDay(words) / 100), monthDay(words) % 100);
  return h('section', { class: 'panel' }, title,
    h('ul', { class: 'plain' }, plan.map((step) => h('li', null, t.planFrom(u.date(dayMs(step)), step.feed)))),
    feeding?.pause ? h('p', null, t.planPause(dayWords(feeding.pause.from), dayWords(feeding.pause.until))) : null,
    h('h3', null, t.planCalendar), h('ul', { class: 'months' }, months));
}

export function tanksView(benchName) {
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const tanks = h('div', { class: 'panels even' });
  const problem = h('p', { class: 'error', role: 'status' });
  const bench = store.bench(benchName);
  const use = { plain: 0, feed: 0 };
  const el = h('section', { class: 'view' }, heading, problem, tanks, h('div', { class: 'panels even' }, mixPanel(bench), planPanel(bench)));

  function show() {
    const names = [...new Set([...Object.keys(bench.status?.tank_ml ?? {}), ...Object.keys(bench.setup?.tanks ?? {})])].sort();
    const feedTanks = names.filter((name) => isFeed(bench.setup?.tanks?.[name], name));
    const share = (name) => (feedTanks.includes(name) ? use.feed / feedTanks.length : use.plain / Math.max(1, names.length - feedTanks.length));
    tanks.replaceChildren(...(names.length > 0 ? names.map((name) => tankPanel(bench, name, share(name))) : [h('p', { class: 'quiet' }, t.none)]));
  }

  async function load() {
    try {
      const doses = await api.events(benchName, { kind: 'dose', from: new Date(bench.now - USE_DAYS * DAY_MS), limit: 5000 });
      use.plain = doses.reduce((sum, event) => sum + event.data.plain_ml, 0) / USE_DAYS;
      use.feed = doses.reduce((sum, event) => sum + event.data.feed_ml, 0) / USE_DAYS;
      setText(problem, '');
    } catch (error) {
      setText(problem, t.failed(error.message));
    }
    show();
  }
  show();
  load();
  return {
    el, title: t.title, heading,
    onChange(changes) {
      if (changes.all || changes.events.some(({ event }) => event.kind === 'dose')) load();
    },
  };
}
