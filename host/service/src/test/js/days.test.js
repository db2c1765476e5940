import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  comingDays,
  dayAfter,
  dayOf,
  holdsOf,
  spellsOf,
  startOf,
  sumsBy,
  withoutForecast,
} from '../../main/resources/dev/cupwarden/host/page/js/days.js';
import { publishedTables } from './published.js';
import * as u from '../../main/resources/dev/cupwarden/host/page/js/units.js';

publishedTables();
u.choose({ zone: 'bench' });
u.useBenchZone('Europe/London');
const NOW = Date.parse('2027-03-26T09:00:00Z');
const cupOf = (cup, fields = {}) => ({
  cup,
  state: 'steady',
  at: '2027-03-26T09:00:00Z',
  reasons: [],
  due_at: null,
  water_at: null,
  ...fields,
});
const benchOf = (cups, fields = {}) => ({
  now: NOW,
  cups: new Map(cups.map((cup) => [cup.cup, cup])),
  setup: null,
  status: { holds: [] },
  ...fields,
});
const kinds = (days) =>
  days.map(({ day, items }) => `${day.slice(5)} ${items.map((item) => `${item.kind}${item.cup ? `:${item.cup}` : ''}`).join(' ')}`.trim());

/** Summer time begins on the 28th: that day has 23 hours. */
test('seven days of the reader’s calendar, also over the change to summer time', () => {
  assert.deepEqual(kinds(comingDays(benchOf([]), [])), ['03-26', '03-27', '03-28', '03-29', '03-30', '03-31', '04-01']);
  assert.equal(dayAfter('2027-03-28'), '2027-03-29');
  assert.equal(startOf('2027-03-29'), Date.parse('2027-03-28T23:00:00Z'));
  assert.equal(dayOf(startOf('2027-03-29') - 1), '2027-03-28');
});

test('each thing stands on its day: water, an empty tank, a look, a feed, the dark season, the end of a hold', () => {
  const cups = [
    cupOf('A2', { due_at: '2027-03-26T22:25:00Z', water_at: '2027-03-27T08:00:00Z' }),
    cupOf('A10', { water_at: '2027-03-27T08:00:00Z' }),
    cupOf('A1', { water_at: '2027-03-26T08:00:00Z' }),
    cupOf('A3', { rooting: { white: { likely: '2027-03-29' }, toughened: { likely: '2027-03-30' } } }),
    cupOf('A4', { state: 'held', reasons: [{ code: 'hold', value: 20 }] }),
    cupOf('A5', { state: 'away', due_at: '2027-03-26T10:00:00Z' }),
  ];
  const setup = { feeding: { plan: [{ from: '2027-03-28', feed: 'bloom' }], pause: { from: '--12-01', until: '--04-01' } } };
  const tanks = [
    { tank: 'plain', lasts_until: '2027-03-31T12:00:00Z' },
    { tank: 'feed', lasts_until: null },
  ];
  assert.deepEqual(kinds(comingDays(benchOf(cups, { setup }), tanks)), [
    '03-26 water:A1',
    '03-27 release:A4 water:A2 water:A10',
    '03-28 feed',
    '03-29 look:A3',
    '03-30',
    '03-31 empty',
    '04-01 light',
  ]);
  assert.deepEqual(withoutForecast(benchOf(cups)), ['A3', 'A4']);
});

test('a cup that is due and refused water is not watered now; one that soaks is', () => {
  const due = (code) => cupOf('A1', { water_at: '2027-03-26T08:00:00Z', reasons: [{ code }] });
  const held = (code) => comingDays(benchOf([due(code)]), [])[0].items[0].held;
  assert.deepEqual(held('frost'), ['frost']);
  assert.deepEqual(held('soak'), []);
  assert.deepEqual(held('stage'), []);
});

test('a hold of the whole bench ends once', () => {
  const held = (cup) => cupOf(cup, { state: 'held', reasons: [{ code: 'hold', value: 3 }] });
  const bench = benchOf([held('A1'), held('A2')], { status: { holds: ['*'] } });
  assert.deepEqual(comingDays(bench, [])[0].items, [{ kind: 'release', at: NOW + 3 * 3600e3, cup: null }]);
});

test('sums of what was given', () => {
  const given = [
    { cup: 'A1', why: 'due', passes: 2, plain_ml: 40, feed_ml: 20 },
    { cup: 'A1', why: 'hand', passes: 1, plain_ml: 50, feed_ml: 0 },
    { cup: 'A2', why: 'due', passes: 1, plain_ml: 10, feed_ml: 5 },
  ];
  assert.deepEqual(sumsBy(given, 'cup').get('A1'), { plain_ml: 90, feed_ml: 20, passes: 3 });
  assert.deepEqual(sumsBy(given, 'why').get('due'), { plain_ml: 50, feed_ml: 25, passes: 3 });
});

test('a spell runs from its raising to its clearing; a warning and another alert are none, told again is the same', () => {
  const alert = (at, code, state, since = at, cup = null) => ({ at, data: { code, state, since, cup } });
  const spells = spellsOf([
    alert('2027-03-22T06:00:00Z', 'cold', 'cleared'),
    alert('2027-03-20T01:00:00Z', 'cold', 'warned'),
    alert('2027-03-20T02:00:00Z', 'cold', 'raised'),
    alert('2027-03-21T02:00:00Z', 'cold', 'raised', '2027-03-20T02:00:00Z'),
    alert('2027-03-23T02:00:00Z', 'leak', 'raised'),
    alert('2027-03-24T02:00:00Z', 'frost', 'raised', '2027-03-24T01:30:00Z', 'A2'),
  ]);
  assert.deepEqual(spells, [
    { code: 'cold', cup: null, from: Date.parse('2027-03-20T02:00:00Z'), to: Date.parse('2027-03-22T06:00:00Z') },
    { code: 'frost', cup: 'A2', from: Date.parse('2027-03-24T01:30:00Z'), to: null },
  ]);
});

test('a hold ends when it said, when it is released, or where another takes its place; a refused one was none', () => {
  const order = (issued, kind, fields = {}, outcome = 'done') => ({ issued, kind, receipts: [{ outcome }], ...fields });
  const until = '2027-03-25T00:00:00Z';
  const ms = Date.parse;
  assert.deepEqual(
    holdsOf([
      order('2027-03-20T00:00:00Z', 'hold', { until }),
      order('2027-03-20T12:00:00Z', 'hold', { until, cup: 'A1' }),
      order('2027-03-21T00:00:00Z', 'hold', { until: '2027-03-26T00:00:00Z' }),
      order('2027-03-21T12:00:00Z', 'release', { cups: ['A1', 'A2'] }),
      order('2027-03-22T00:00:00Z', 'hold', { until, cup: 'A9' }, 'refused'),
      order('2027-03-22T00:00:00Z', 'hold', { until, feed_only: true }),
      order('2027-03-23T00:00:00Z', 'release'),
    ]),
    [
      { cups: null, from: ms('2027-03-20T00:00:00Z'), to: ms('2027-03-21T00:00:00Z') },
      { cups: ['A1'], from: ms('2027-03-20T12:00:00Z'), to: ms('2027-03-21T12:00:00Z') },
      // One of feed alone takes its place, as the controller keeps one hold.
      { cups: null, from: ms('2027-03-21T00:00:00Z'), to: ms('2027-03-22T00:00:00Z') },
    ],
  );
});
