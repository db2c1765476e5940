import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as reading from '../../main/resources/dev/cupwarden/host/page/js/reading.js';
import { publishedTables } from './published.js';

const { limits, alerts } = publishedTables();
const NOW = Date.parse('2027-02-14T08:00:00Z');
const cupOf = (cup, fields = {}) => ({ cup, state: 'steady', trusted: true, depletion: 0.1, due: 0.5, reasons: [], ...fields });
const benchOf = (cups, open = []) => ({
  cups: new Map(cups.map((cup) => [cup.cup, cup])),
  alertsOf: (name) => open.filter((alert) => alert.cup === name),
});

test('a cup stands where its state puts it, and in trouble with an open alert', () => {
  const bench = benchOf([], [{ code: 'near-dry', cup: 'A2' }]);
  assert.equal(reading.groupOf(bench, cupOf('A1')), 'steady');
  assert.equal(reading.groupOf(bench, cupOf('A2')), 'trouble');
  for (const [state, group] of [
    ['dry', 'trouble'],
    ['wet', 'trouble'],
    ['untrusted', 'trouble'],
    ['watering', 'now'],
    ['due', 'now'],
    ['soaking', 'now'],
    ['held', 'aside'],
    ['away', 'aside'],
  ]) {
    assert.equal(reading.groupOf(bench, cupOf('A1', { state })), group);
  }
});

test('trouble first, then by when due, then by name as a person counts', () => {
  const cups = [
    cupOf('A10'),
    cupOf('A2'),
    cupOf('A3', { due_at: '2027-02-14T12:00:00Z' }),
    cupOf('A4', { due_at: '2027-02-14T09:00:00Z' }),
    cupOf('A5', { state: 'held' }),
    cupOf('A6', { state: 'dry' }),
  ];
  assert.deepEqual(
    cups.sort(reading.compareCups).map((cup) => cup.cup),
    ['A6', 'A5', 'A4', 'A3', 'A2', 'A10'],
  );
});

test('water left is told in percent, and never below nothing', () => {
  assert.equal(reading.leftWords(cupOf('A1', { depletion: 0.25 })), '75 % left');
  assert.equal(reading.leftOf(1.2), 0);
  assert.equal(reading.leftOf(-0.05), 1.05);
  assert.equal(reading.leftWords(cupOf('A1', { depletion: null })), 'water unknown');
});

test('a forecast is told from the bench’s own now', () => {
  const told = (fields) => reading.forecastWords(cupOf('A1', fields), NOW);
  assert.equal(told({ due_at: '2027-02-14T13:00:00Z' }), 'due in 5 h');
  assert.equal(told({ depletion: 0.6, dry_at: '2027-02-14T17:00:00Z' }), 'due now, dry in 9 h');
  assert.equal(told({ due_at: '2027-02-14T08:00:00Z', dry_at: '2027-02-14T07:00:00Z' }), 'due now');
  assert.equal(told({ state: 'away', due_at: '2027-02-14T13:00:00Z' }), 'no forecast');
  assert.equal(told({ trusted: false, due_at: '2027-02-14T13:00:00Z' }), 'no forecast');
  assert.equal(told({}), 'no forecast');
  assert.match(told({ state: 'dry', depletion: 0.9 }), /dry line/);
});

test('dry before goes by the early bound, or by what an older controller told', () => {
  const early = '2027-02-14T10:00:00Z';
  const likely = '2027-02-14T18:00:00Z';
  assert.equal(reading.dryBeforeMs({ dry_before: early, dry_at: likely }), Date.parse(early));
  assert.equal(reading.dryBeforeMs({ dry_before: null, dry_at: likely }), Date.parse(likely));
  assert.equal(reading.dryBeforeMs({}), null);
});

test('a strength is so much nitrogen and conductivity', () => {
  const leafy = { n_pct: 20, label_g_per_l: 1.5, ec_ms_per_cm_per_g_per_l: 1.2 };
  const held = reading.concentrationOf({ feeds: { leafy }, water_ec_ms_per_cm: 0.3 }, 'leafy', 0.5);
  assert.ok(Math.abs(held.nMgPerL - 150) < 1e-9);
  assert.ok(Math.abs(held.ecMsPerCm - 1.2) < 1e-9);
  assert.equal(reading.concentrationOf({ feeds: {} }, 'leafy', 0.5), null);
  assert.equal(reading.concentrationOf(null, null, 0), null);
});

test('a strength that was given is told with its nitrogen, where it can be of one feed alone', () => {
  const leafy = { n_pct: 20, label_g_per_l: 1.5, ec_ms_per_cm_per_g_per_l: 1.2 };
  const setup = { feeds: { leafy }, water_ec_ms_per_cm: 0.3 };
  assert.equal(reading.strengthWords(setup, 0.5), '0.50 (150 mg/L N)');
  assert.equal(reading.strengthWords(setup, 0), '0.00');
  assert.equal(reading.strengthWords({ feeds: { leafy, fruity: leafy } }, 0.5), '0.50');
  assert.equal(reading.strengthWords(null, 0.5), '0.50');
});

test('grams and depletion are two sides of one weight', () => {
  const cup = { capacity_g: 400, available_ml: 200 };
  assert.equal(reading.massAt(cup, 0.25), 350);
  assert.equal(reading.depletionAt(cup, 350), 0.25);
});

test('alerts of one cause are one line, in the order of the core’s table', () => {
  const at = '2027-02-14T07:00:00Z';
  const open = [...alerts].reverse().flatMap(({ code }) => ['A1', 'A2'].map((cup) => ({ code, cup, state: 'raised', since: at })));
  const causes = reading.alertsByCause(open);
  const rankOf = new Map(alerts.map(({ code, rank }) => [code, rank]));
  assert.deepEqual(
    causes.map((cause) => rankOf.get(cause.code)),
    alerts.map(({ rank }) => rank).sort((a, b) => a - b),
  );
  assert.ok(causes.every((cause) => cause.alerts.length === 2));
});

test('the whole bench comes before cups, warnings last, and each tank stands alone', () => {
  const at = '2027-02-14T07:00:00Z';
  const causes = reading.alertsByCause([
    { code: 'near-dry', cup: 'A1', state: 'warned', since: at },
    { code: 'wet-too-long', cup: 'A2', state: 'raised', since: at },
    { code: 'tank-low', tank: 'plain', state: 'raised', since: at },
    { code: 'tank-low', tank: 'feed', state: 'raised', since: '2027-02-13T07:00:00Z' },
  ]);
  assert.deepEqual(
    causes.map((cause) => [cause.code, cause.tank ?? cause.alerts[0].cup]),
    [
      ['tank-low', 'plain'],
      ['tank-low', 'feed'],
      ['wet-too-long', 'A2'],
      ['near-dry', 'A1'],
    ],
  );
});

test('each limit of the core holds back either water or feed', () => {
  const cup = cupOf('A1', { reasons: limits.map(({ code }) => ({ code })) });
  const codes = (reasons) => reasons.map((reason) => reason.code);
  assert.deepEqual(codes(reading.holdingFeed(cup)), codes(limits.filter((limit) => limit.on === 'feed')));
  assert.deepEqual(codes(reading.holdingWater(cup)), codes(limits.filter((limit) => limit.on === 'water')));
  assert.deepEqual(reading.holdingWater(undefined), []);
});

test('one limit behind all cups of a cause is told as such', () => {
  const frozen = { reasons: [{ code: 'window' }, { code: 'frost' }] };
  const bench = benchOf([cupOf('A1', frozen), cupOf('A2', { reasons: [{ code: 'frost' }, { code: 'stage' }] })]);
  const cause = (...names) => ({ alerts: names.map((cup) => ({ code: 'near-dry', cup })) });
  assert.equal(reading.commonLimit(bench, cause('A1', 'A2')), 'frost');
  assert.equal(reading.commonLimit(bench, cause('A1')), null);
});

test('the gravest raised alert stands in the place of a state that says nothing of it', () => {
  const open = [
    { code: 'salts-high', cup: 'A1', state: 'raised' },
    { code: 'leak', cup: 'A1', state: 'raised' },
    { code: 'near-dry', cup: 'A2', state: 'warned' },
  ];
  const bench = benchOf([], open);
  assert.equal(reading.alertBefore(bench, cupOf('A1')).code, 'leak');
  assert.equal(reading.alertBefore(bench, cupOf('A1', { state: 'dry' })), null);
  assert.equal(reading.alertBefore(bench, cupOf('A2')), null);
  assert.equal(reading.alertBefore(bench, cupOf('A3')), null);
});

test('next water is when the core says, and due only from a controller that does not say', () => {
  const due = '2027-02-14T22:25:00Z';
  const water = '2027-02-15T08:00:00Z';
  assert.equal(reading.waterMs({ state: 'steady', due_at: due, water_at: water }), Date.parse(water));
  assert.equal(reading.waterMs({ state: 'steady', due_at: due }), Date.parse(due));
  assert.equal(reading.waterMs({ state: 'steady', due_at: null, water_at: null }), null);
  assert.equal(reading.waterMs({ state: 'away', due_at: due, water_at: null }), null);
});

test('a hold of the whole bench ends when its cups say', () => {
  const held = cupOf('A1', { at: '2027-02-14T08:00:00Z', reasons: [{ code: 'hold', value: 20.5 }] });
  const bench = { ...benchOf([held, cupOf('A2')]), status: { holds: ['*'] } };
  assert.equal(reading.heldUntilMs(bench), Date.parse('2027-02-15T04:30:00Z'));
  assert.equal(reading.heldUntilMs({ ...bench, status: { holds: ['A1'] } }), null);
  assert.ok(Number.isNaN(reading.heldUntilMs({ ...benchOf([cupOf('A2')]), status: { holds: ['*'] } })));
});

test('doses too near to be named each are told as one, with their sum', () => {
  const doses = [0, 15, 30, 200].map((at) => ({ at, ml: 30, feed: at === 15 }));
  assert.deepEqual(
    reading.dosesTogether(doses, (at) => at, 50),
    [
      { x: 0, ml: 90, feed: true },
      { x: 200, ml: 30, feed: false },
    ],
  );
  assert.equal(reading.dosesTogether(doses, (at) => at, 1).length, 4);
});

test('daily means are of whole days, and leave out what is not known', () => {
  const day = (at) => Math.floor(at / 10);
  assert.deepEqual(reading.dailyMeans([9, 11, 12, 21, 22, 31], [50, 1, 3, null, 6, 70], day), [2, 6]);
  assert.deepEqual(reading.dailyMeans([1, 11], [1, 2], day), []);
});
