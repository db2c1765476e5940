import assert from 'node:assert/strict';
import { test } from 'node:test';
import { allOf, groupsOf, leafyOf } from '../../main/resources/dev/cupwarden/host/page/js/choice.js';
import { askedBy, fitting, whyNot } from '../../main/resources/dev/cupwarden/host/page/js/fitting.js';
import { KINDS, kindsOfCup } from '../../main/resources/dev/cupwarden/host/page/js/orders.js';
import { text } from '../../main/resources/dev/cupwarden/host/page/js/text.js';
import { publishedTables } from './published.js';

const { alerts } = publishedTables();
const t = text.doing.notNow;
const cupOf = (cup, fields = {}) => ({ cup, plant: 'elder', state: 'steady', stage: 'toughened', reasons: [], ...fields });
const benchOf = (cups, fields = {}) => ({
  cups: new Map(cups.map((cup) => [cup.cup, cup])),
  alerts: [],
  alertsOf: (name) => (fields.alerts ?? []).filter((alert) => alert.cup === name),
  setup: null,
  status: null,
  ...fields,
});
const why = (kind, cup, fields) => whyNot(kind, benchOf([cup], fields), cup);
const standing = cupOf('A1');
const away = cupOf('A1', { state: 'away' });
const reason = (code) => ({ code, value: 0, threshold: 0, unit: '', sentence: 'it holds' });

test('a cup is put back that is away, and taken off that stands', () => {
  assert.equal(why('back', standing), t.stands);
  assert.equal(why('back', away), null);
  assert.equal(why('away', standing), null);
  assert.equal(why('away', away), t.awayAlready);
  assert.equal(why('drained', away), t.away);
  assert.equal(why('prime', away), null);
  assert.equal(why('prime', standing), t.stands);
});

test('a hold of the cup is released there, one of the whole bench only as a whole', () => {
  assert.equal(why('release', standing), t.notHeld);
  assert.equal(why('release', standing, { status: { holds: ['A1'] } }), null);
  assert.equal(why('release', standing, { status: { holds: ['*'] } }), t.benchHeldOnly);
  assert.equal(why('hold', standing, { status: { holds: ['*'] } }), t.benchHeld);
  assert.equal(why('hold', standing, { status: { holds: ['A1'] } }), t.held);
  assert.equal(why('hold', standing, { status: { holds: ['A2'] } }), null);
});

test('water is for a cup that no limit refuses it to; one that a person may lift, or that waits, refuses nothing', () => {
  assert.equal(why('dose', standing), null);
  assert.match(why('dose', cupOf('A1', { reasons: [reason('too-wet')] })), /it holds/);
  assert.equal(why('dose', cupOf('A1', { reasons: [reason('window'), reason('soak'), reason('stage')] })), null);
  assert.equal(why('dose', standing, { alerts: [{ code: 'watch-only', cup: null }] }), t.watchOnly);
});

test('a flush is for a cup whose salts are told of, also past its wet line', () => {
  const alerts = [{ code: 'salts-high', cup: 'A1' }];
  assert.equal(why('flush', standing), t.noSalts);
  assert.equal(why('flush', standing, { alerts }), null);
  assert.equal(why('flush', cupOf('A1', { reasons: [reason('too-wet')] }), { alerts }), null);
  assert.match(why('flush', cupOf('A1', { reasons: [reason('frost')] }), { alerts }), /it holds/);
});

test('what is covered is uncovered, a fault of its own is cleared, and a hose is where the file says so', () => {
  const covered = { setup: { cups: { A1: { covered: true } } } };
  assert.equal(why('cover', standing, covered), t.covered);
  assert.equal(why('uncover', standing, covered), null);
  assert.equal(why('uncover', standing), t.open);
  assert.equal(why('clear', standing), t.nothingToClear);
  assert.equal(why('clear', standing, { alerts: [{ code: 'dose-short', cup: 'A2' }] }), t.nothingToClear);
  assert.equal(why('clear', standing, { alerts: [{ code: 'dose-short', cup: 'A1' }] }), null);
  assert.equal(why('prime', away, { setup: { keys: [{ path: 'watering.pass' }] } }), t.noHose);
  assert.equal(why('prime', away, { setup: { keys: [{ path: 'hose.length' }] } }), null);
});

test('in every state a cup is offered something, and all the rest has its reason', () => {
  for (const state of Object.keys(text.state)) {
    const cup = cupOf('A1', { state });
    const reasons = kindsOfCup().map((kind) => why(kind, cup));
    assert.ok(reasons.some((each) => each === null));
    assert.ok(reasons.every((each) => each === null || each.length > 5));
  }
});

test('cups are chosen by row, plant and stage; a grouping that is all of them is none', () => {
  const bench = benchOf([
    cupOf('A2'),
    cupOf('A10', { stage: 'struck' }),
    cupOf('B1', { plant: 'vine', stage: 'circling' }),
    cupOf('B2', { stage: 'white' }),
  ]);
  assert.deepEqual(allOf(bench), ['A2', 'A10', 'B1', 'B2']);
  assert.deepEqual(leafyOf(bench), ['A2', 'B1']);
  const { row, plant, stage } = groupsOf(bench);
  assert.deepEqual(
    row.map(({ words, names }) => [words, names]),
    [
      ['Row A', ['A2', 'A10']],
      ['Row B', ['B1', 'B2']],
    ],
  );
  assert.deepEqual(
    plant.map(({ names }) => names),
    [['A2', 'A10', 'B2'], ['B1']],
  );
  assert.equal(stage.length, 4);
  assert.deepEqual(groupsOf(benchOf([cupOf('A1'), cupOf('A2')])), {});
  assert.deepEqual(Object.keys(groupsOf(benchOf([cupOf('1'), cupOf('2', { plant: 'vine' })]))), ['plant']);
  assert.deepEqual(fitting('back', benchOf([standing, cupOf('A2', { state: 'away' })]), ['A1', 'A2', 'gone']), ['A2']);
});

test('an alert that asks for an order asks for one that there is; what a person clears is cleared', () => {
  for (const { code, clear } of alerts) {
    const kind = askedBy(code, benchOf([]), []);
    assert.ok(kind === null || kind in KINDS, code);
    if (clear) assert.ok(kind, code);
  }
  assert.equal(askedBy('salts-high', benchOf([]), []), 'flush');
  assert.equal(askedBy('leak', benchOf([]), []), 'clear');
  assert.equal(askedBy('frost', benchOf([]), []), null);
  for (const code of [
    'near-dry',
    'salts-high',
    'weigh-drained',
    'look-at-roots',
    'cup-away',
    'lift-cover',
    'tank-low',
    'tank-empty',
    'feed-old',
    'pot-on',
    'pot-bound',
  ])
    assert.ok(
      alerts.some((alert) => alert.code === code),
      code,
    );
});
