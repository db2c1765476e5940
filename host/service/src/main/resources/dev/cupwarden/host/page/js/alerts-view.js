// Alerts: open ones with what to do, one line for all from one cause, and past ones.

import * as api from './api.js';
import { freshId, h, regionTable, say, setText } from './dom.js';
import { askedBy } from './fitting.js';
import { takesSeveral } from './orders.js';
import { alertsByCause, commonLimit, compareNames, keyOfAlert } from './reading.js';
import { store } from './store.js';
import { alertOf, nameOfAlert, nameOfLimit } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.alerts;
const MOST_PAST = 400;
const DAY_MS = 24 * 3600e3;

/** Eight in the morning of the next Monday, where the reader is. */
function nextMonday(now) {
  const day = new Date(now);
  day.setDate(day.getDate() + ((8 - day.getDay()) % 7 || 7));
  day.setHours(8, 0, 0, 0);
  return Math.min(day.getTime(), now + 7 * DAY_MS);
}

const hours = (h) => u.span(h * 3600e3);
/** Quantities of the table's units as the reader wants them; others are shown as they are. */
const BY_UNIT = {
  s: (s) => u.span(s * 1000),
  min: (min) => hours(min / 60),
  h: hours,
  d: (d) => hours(24 * d),
  g: u.mass,
  'g/h': (g) => t.anHour(u.mass(g)),
  'g a day': (g) => t.aDay(u.mass(g)),
  mL: u.tank,
  '°C': u.temp,
};
const quantity = (value, unit) => BY_UNIT[unit]?.(value) ?? `${u.number(value, 1)} ${unit}`;

/** What was found and its limit, where they are quantities; the other alerts are a yes or no. */
function valueWords({ code, cup, value, threshold }) {
  const told = alertOf(code);
  if (!told || !Number.isFinite(value) || !Number.isFinite(threshold)) return '';
  if (!cup && told.counts_cups) return value > 0 ? `, ${t.inCups(value)}` : '';
  if (told.part) return `, ${t.value(`${u.percent(value)} ${told.part}`, u.percent(threshold))}`;
  // Water held against nothing is a yes or no, until it is measured.
  if (!told.unit || (told.unit === 'mL' && threshold === 0)) return '';
  return `, ${t.value(quantity(value, told.unit), quantity(threshold, told.unit))}`;
}

const whose = (alert) =>
  alert.cup ? t.forCup(alert.cup) : alert.tank ? t.forTank(alert.tank) : alert.cups ? t.forCups(alert.cups) : t.forBench;

/** Past alerts: each raising with the clearing that ended it. */
function pastOf(events) {
  const open = new Map();
  const past = [];
  for (const event of [...events].sort((a, b) => Date.parse(a.at) - Date.parse(b.at))) {
    const alert = event.data;
    const key = keyOfAlert(alert);
    if (alert.state === 'cleared') {
      past.push({ code: alert.code, cup: alert.cup, tank: alert.tank, from: open.get(key)?.since ?? alert.since, to: event.at });
      open.delete(key);
    } else open.set(key, alert);
  }
  return past.reverse();
}

export function alertsView(benchName) {
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const open = h('div');
  const past = h('tbody');
  const state = h('p', { class: 'quiet', role: 'status' });
  const pastTable = regionTable(t.past, null, past);
  const refusal = store.mayAct() ? null : h('p', { class: 'refusal', id: freshId('refusal') }, text.session.lookOnly(store.session.name));
  const el = h(
    'section',
    { class: 'view' },
    heading,
    h('h2', null, t.open),
    refusal,
    open,
    h('section', { class: 'panel' }, h('h2', null, t.past), state, pastTable),
  );
  let shown = '';

  function causePanel(bench, cause) {
    const cups = cause.alerts.filter((alert) => alert.cup).sort((a, b) => compareNames(a.cup, b.cup));
    const since = Date.parse(cause.since);
    const worst = cause.alerts[0];
    const unseen = cause.alerts.filter((alert) => !alert.acknowledged);
    const seen = cause.alerts
      .map((alert) => alert.acknowledged)
      .filter(Boolean)
      .at(-1);
    const limit = commonLimit(bench, cause);
    const problem = h('span', { class: 'error', role: 'alert' });
    const mark = h(
      'button',
      {
        type: 'button',
        disabled: refusal !== null,
        'aria-describedby': refusal?.id,
        'aria-label': `${t.seen}: ${nameOfAlert(cause.code)}`,
        onclick: () => acknowledge(cause, unseen, mark, problem),
      },
      t.seen,
    );
    return h(
      'section',
      { class: 'panel', 'data-code': cause.code, 'data-tank': cause.tank ?? null },
      h('h3', null, nameOfAlert(cause.code), ' ', h('span', { class: 'quiet' }, `(${text.alertState[worst.state]})`)),
      h(
        'p',
        null,
        cups.length === 0 ? whose(worst) : cups.length === 1 ? t.forCup(cups[0].cup) : t.forCups(cups.map((alert) => alert.cup)),
        ', ',
        t.since(u.near(since, bench.now), u.span(bench.now - since)),
        cause.alerts.length === 1 ? valueWords(worst) : '',
        '.',
      ),
      h('p', null, h('strong', null, worst.do ?? ''), worst.bound ? ` ${t.bound}` : '', limit ? ` ${t.allHeldBy(nameOfLimit(limit))}` : ''),
      h(
        'p',
        { class: 'row' },
        cups
          .slice(0, 12)
          .map((alert) =>
            h('a', { class: 'button', href: `#/${encodeURIComponent(benchName)}/cup/${encodeURIComponent(alert.cup)}` }, alert.cup),
          ),
        actLinks(bench, cause, cups),
        unseen.length > 0 ? mark : h('span', { class: 'quiet', tabindex: '-1' }, t.seenBy(seen.by, u.dayTime(Date.parse(seen.at)))),
        problem,
      ),
      laterRow(bench, cause),
    );
  }

  /** The order that answers it: one for all its cups, one for each where it cannot be for several, or one for the bench or a tank. */
  function actLinks(bench, cause, cups) {
    const names = cups.map((alert) => alert.cup);
    const kind = askedBy(cause.code, bench, names);
    if (!kind) return [];
    const ofBench = cause.tank ? [cause.tank] : [''];
    const each = names.length === 0 ? ofBench : names.length === 1 || takesSeveral(kind) ? [names.join(',')] : names.slice(0, 12);
    return each.map((whom) =>
      h(
        'a',
        {
          class: 'button act',
          'data-kind': kind,
          href: `#/${[benchName, 'do', kind, whom].filter(Boolean).map(encodeURIComponent).join('/')}`,
        },
        each.length > 1 ? `${text.doing.kind[kind]}: ${whom}` : text.doing.kind[kind],
      ),
    );
  }

  /** Puts an alert off, by an order to the bench: it is still open, and told before if it grows worse. */
  function laterRow(bench, cause) {
    if (!alertOf(cause.code)?.later || cause.alerts.every((alert) => alert.state === 'warned')) return null;
    const said = h('span', { class: 'quiet', role: 'status' });
    const buttons = [
      ['day', bench.now + DAY_MS],
      ['monday', nextMonday(bench.now)],
      ['week', bench.now + 7 * DAY_MS],
    ].map(([name, until]) =>
      h(
        'button',
        {
          type: 'button',
          disabled: refusal !== null,
          'aria-describedby': refusal?.id,
          'data-later': name,
          onclick: () => putOff(cause, until, buttons, said),
        },
        t.later[name],
      ),
    );
    return h('p', { class: 'row' }, h('span', { class: 'quiet' }, t.later.title), buttons, said);
  }

  async function putOff(cause, until, buttons, said) {
    for (const button of buttons) button.disabled = true;
    try {
      for (const alert of cause.alerts) {
        const whose = alert.cup ? { cup: alert.cup } : alert.tank ? { tank: alert.tank } : {};
        await api.order(benchName, { kind: 'later', alert: cause.code, ...whose, until: new Date(until).toISOString() });
      }
      setText(said, t.later.said(u.dayTime(until)));
    } catch (error) {
      setText(said, t.later.failed(error.message));
      for (const button of buttons) button.disabled = false;
    }
  }

  async function acknowledge({ code, tank }, alerts, mark, problem) {
    mark.disabled = true;
    try {
      for (const alert of alerts)
        await api.acknowledge(benchName, alert.cup ? { code, cup: alert.cup } : alert.tank ? { code, tank: alert.tank } : { code });
      await store.loadAlerts(benchName);
      say(t.seenSaid);
      show();
      open.querySelector(`[data-code="${code}"]${tank ? `[data-tank="${tank}"]` : ''} [tabindex="-1"]`)?.focus();
    } catch (error) {
      setText(problem, t.seenFailed(error.message));
      mark.disabled = false;
    }
  }

  function show() {
    const bench = store.bench(benchName);
    const key = JSON.stringify(bench.alerts);
    if (key === shown) return;
    shown = key;
    const causes = alertsByCause(bench.alerts);
    open.replaceChildren(...(causes.length > 0 ? causes.map((cause) => causePanel(bench, cause)) : [h('p', { class: 'quiet' }, t.none)]));
  }

  async function load() {
    try {
      const ended = pastOf(await api.events(benchName, { kind: 'alert', limit: MOST_PAST }));
      past.replaceChildren(
        ...ended.map((alert) =>
          h(
            'tr',
            null,
            h('td', null, nameOfAlert(alert.code)),
            h('td', null, whose(alert)),
            h('td', null, t.from(u.dayTime(Date.parse(alert.from)), u.dayTime(Date.parse(alert.to)))),
          ),
        ),
      );
      setText(state, ended.length === 0 ? t.noPast : '');
      pastTable.hidden = ended.length === 0;
    } catch (error) {
      setText(state, t.failed(error.message));
    }
  }
  show();
  load();
  return {
    el,
    title: t.title,
    heading,
    onChange(changes) {
      show();
      if (changes.all || changes.events.some(({ event }) => event.kind === 'alert')) load();
    },
  };
}
