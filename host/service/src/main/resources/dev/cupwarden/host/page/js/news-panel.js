// What is new on a bench since this reader last looked.

import * as api from './api.js';
import { spellsOf, sumsBy } from './days.js';
import { h } from './dom.js';
import { putAway } from './last-look.js';
import { store } from './store.js';
import { nameOfAlert } from './tables.js';
import { list, text } from './text.js';
import * as u from './units.js';

const t = text.news;
const MOST_EVENTS = 2000;

/** A panel of what was raised, given and ordered since then; null where nothing was. */
export async function newsPanel(benchName, sinceMs) {
  const bench = store.bench(benchName);
  const from = new Date(sinceMs + 1); // what was then was seen
  const [events, given, orders] = await Promise.all([
    api.events(benchName, { kind: 'alert', from, limit: MOST_EVENTS }),
    api.given(benchName, from, new Date(bench.now + 1)),
    api.orders(benchName),
  ]);
  const codes = [...new Set(events.map((event) => event.data.code))];
  const raised = spellsOf(events, codes).filter((spell) => spell.from >= sinceMs);
  const alerts = codes
    .map((code) => ({ code, own: raised.filter((spell) => spell.code === code) }))
    .filter(({ own }) => own.length > 0)
    .map(({ code, own }) => {
      const cups = [...new Set(own.map((spell) => spell.cup).filter(Boolean))];
      const over = own.every((spell) => spell.to !== null);
      return h(
        'li',
        { class: over ? null : 'stop' },
        h('strong', null, nameOfAlert(code)),
        cups.length > 0 ? `: ${list(cups)}` : '',
        over ? ` (${t.over})` : '',
      );
    });
  const cups = sumsBy(given, 'cup');
  const ml = given.reduce((sum, row) => sum + row.plain_ml + row.feed_ml, 0);
  const done = orders
    .filter((order) => Date.parse(order.issued) >= sinceMs)
    .map((order) => h('li', null, t.order(text.doing.kind[order.kind] ?? order.kind, list(order.cups ?? [order.cup ?? '']), order.by)));
  const water = cups.size > 0 ? [h('li', null, t.given(u.volume(ml), text.cups(cups.size)))] : [];
  if (alerts.length + water.length + done.length === 0) return null;
  const el = h(
    'section',
    { class: 'panel news' },
    h('h2', null, t.title(u.near(sinceMs, bench.now), u.span(bench.now - sinceMs))),
    h('ul', { class: 'says' }, alerts, water, done.slice(0, 8)),
    h(
      'p',
      { class: 'row' },
      h(
        'button',
        {
          type: 'button',
          onclick: () => {
            putAway(benchName);
            el.remove();
            document.getElementById('main').focus();
          },
        },
        t.putAway,
      ),
    ),
  );
  return el;
}
