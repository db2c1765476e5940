import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  BACK_BY,
  before,
  FORGOTTEN_BY,
  GIVES_FOR,
  GROUPS,
  KINDS,
  passesOf,
  repeated,
  roomOf,
} from '../../main/resources/dev/cupwarden/host/page/js/orders.js';
import { text } from '../../main/resources/dev/cupwarden/host/page/js/text.js';
import { publishedTables } from './published.js';

const { limits, alerts } = publishedTables();
const t = text.doing;
const cupOf = (fields = {}) => ({
  cup: 'A1',
  state: 'steady',
  stage: 'toughened',
  trusted: true,
  depletion: 0.3,
  due: 0.5,
  fed: 0.25,
  available_ml: 200,
  room_ml: 60,
  next_pass_ml: 30,
  least_pass_ml: 5,
  reasons: [],
  ...fields,
});
const benchOf = (cups, fields = {}) => ({
  cups: new Map(cups.map((cup) => [cup.cup, cup])),
  alerts: [],
  now: Date.parse('2027-02-14T08:00:00Z'),
  setup: null,
  status: null,
  ...fields,
});
const reasonOf = (code) => ({ code, value: 0, threshold: 0, unit: '', sentence: 'it holds' });
const words = (lines) => lines.map((each) => each.words);
const ofDose = (fields, order = {}) => before('dose', benchOf([cupOf(fields)]), { cup: 'A1', ml: 40, strength: 0, ...order });

test('each order stands in a group, has words, and is taken back by an order that is there', () => {
  for (const [kind, { group, fields }] of Object.entries(KINDS)) {
    assert.ok(GROUPS.includes(group));
    assert.ok(fields.length > 0);
    assert.ok(t.kind[kind] && t.says[kind], kind);
    assert.ok(BACK_BY[kind] in KINDS, kind);
    assert.ok(t.undo[kind], kind);
  }
  for (const kind of [...FORGOTTEN_BY, ...Object.keys(GIVES_FOR)]) assert.ok(kind in KINDS);
});

test('passes fill the room, and none is too small for a valve', () => {
  assert.equal(passesOf(cupOf(), 200), 2);
  assert.equal(passesOf(cupOf(), 40), 2);
  assert.equal(passesOf(cupOf(), 34), 1);
  assert.equal(passesOf(cupOf()), 2);
  assert.equal(passesOf(cupOf({ room_ml: 4 }), 40), 0);
  assert.equal(passesOf(cupOf({ next_pass_ml: 0 }), 40), 0);
  assert.equal(roomOf(cupOf({ room_ml: -3 })), 0);
  assert.equal(roomOf(cupOf({ room_ml: null })), null);
});

test('a dose tells room, passes and label', () => {
  assert.deepEqual(words(ofDose()), [t.room('60 mL'), t.inPasses(2, '30 mL'), t.nothingHolds, t.feedSum('25 %')]);
  assert.ok(words(ofDose({ room_ml: 2 })).includes(t.noRoom));
  assert.ok(words(ofDose({ trusted: false })).includes(t.unknownWater));
  assert.ok(words(ofDose({ next_pass_ml: 0 })).includes(t.noPass));
});

// 200 mL of usable water: three quarters of a label feed are left, at half strength in 0.75 x 200 / 0.5 = 300 mL.
test('a dose with feed is held against stage, ceiling and label', () => {
  assert.ok(words(ofDose({ stage: 'white' }, { strength: 0.5 })).includes(t.noFeedStage));
  assert.ok(words(ofDose({}, { ml: 301, strength: 0.5 })).includes(t.overLabel('300 mL')));
  assert.ok(!words(ofDose({}, { ml: 299, strength: 0.5 })).includes(t.overLabel('300 mL')));
  const bench = benchOf([cupOf()], { setup: { feeding: { ceiling: 0.5 } } });
  const told = (strength) => words(before('dose', bench, { cup: 'A1', ml: 10, strength }));
  assert.ok(told(0.6).includes(t.overCeiling('0.50')));
  assert.ok(!told(0.5).includes(t.overCeiling('0.50')));
});

for (const limit of limits) {
  test(`a dose that “${limit.name}” holds back says so, and whether it may be lifted`, () => {
    const told = words(ofDose({ reasons: [reasonOf(limit.code)] }, { strength: 0.5 }));
    assert.ok(
      told.some((line) => line === t.holdsBack(`${limit.name}: it holds`)),
      told.join('\n'),
    );
    assert.equal(told.includes(t.canLift(limit.name)), limit.on === 'water' && limit.dose === 'lifts');
  });

  test(`a flush tells of “${limit.name}” only where it does not pass it`, () => {
    const told = words(before('flush', benchOf([cupOf({ reasons: [reasonOf(limit.code)] })]), { cup: 'A1', ml: 100 }));
    const holds = limit.on === 'water' && !limit.passed_by.includes('flush');
    assert.equal(told.includes(t.holdsBack(`${limit.name}: it holds`)), holds);
  });
}

// Depletion 0.3 of 200 mL: 60 mL fill the cup, the rest runs through.
test('a flush tells what runs through', () => {
  const told = (ml) => words(before('flush', benchOf([cupOf()]), { cup: 'A1', ml }));
  assert.ok(told(100).includes(t.flushRuns('40 mL')));
  assert.ok(told(60).includes(t.flushNone));
});

for (const alert of alerts) {
  test(`clearing ends “${alert.name}” only where the core says so`, () => {
    const open = benchOf([cupOf()], { alerts: [{ code: alert.code, cup: 'A1' }] });
    const told = words(before('clear', open, { cup: 'A1' }));
    assert.equal(told.includes(t.clearEnds([`${alert.name} (A1)`])), alert.clear);
    assert.equal(told.includes(t.clearNothing), !alert.clear);
  });
}

test('a hold tells who may be dry before it ends', () => {
  const cups = [
    cupOf({ cup: 'A1', dry_before: '2027-02-14T12:00:00Z', dry_at: '2027-02-14T20:00:00Z' }),
    cupOf({ cup: 'A2', dry_before: '2027-02-15T12:00:00Z' }),
    cupOf({ cup: 'A3' }),
  ];
  const told = (order) => words(before('hold', benchOf(cups), { until: '2027-02-14T18:00:00Z', rescue: true, ...order }));
  assert.deepEqual(told({}), [t.dryBefore(['A1'], 1), t.dryUnknown(1)]);
  assert.deepEqual(told({ cup: 'A2', rescue: false }), [t.dryBeforeNone, t.rescueNote]);
  assert.deepEqual(told({ feed_only: true }), []);
});

test('what a release would water is told', () => {
  const bench = benchOf([cupOf({ depletion: 0.5 }), cupOf({ cup: 'A2' })], { status: { holds: ['*'] } });
  assert.deepEqual(words(before('release', bench, {})), [t.holdsNow(t.field.wholeBench), t.thenWatered(['A1'])]);
  assert.deepEqual(words(before('release', benchOf([cupOf()]), { cup: 'A1' })), [t.noHolds, t.thenNone]);
});

test('a can that was given is held against the label', () => {
  const told = (ml) => words(before('watered', benchOf([cupOf()]), { cup: 'A1', ml, strength: 1 }));
  assert.ok(told(100).includes(t.fedThen('75 %')));
  assert.ok(told(200).includes(t.fedOver('125 %')));
});

test('a tank takes no more than it holds, and a strength needs a feed', () => {
  const setup = { tanks: { plain: { size_ml: 12000, feed: null, strength: 0 }, fed: { size_ml: 4000, feed: 'leafy', strength: 0.5 } } };
  const told = (order) => words(before('filled', benchOf([], { setup }), { tank: 'plain', ...order }));
  assert.ok(told({ ml: 12001 }).includes(t.tooMuch('12.0 L')));
  assert.ok(!told({ ml: 12000 }).includes(t.tooMuch('12.0 L')));
  assert.ok(told({ ml: 1000, strength: 0.5 }).includes(t.plainHasNone));
  assert.ok(!told({ ml: 1000, strength: 0.5, feed: 'leafy' }).includes(t.plainHasNone));
  assert.ok(told({ ml: 1000, strength: 0, feed: 'leafy' }).includes(t.feedNeedsStrength));
  assert.ok(told({ tank: 'fed', ml: 1000, strength: 0 }).includes(t.feedGone('leafy')));
  assert.ok(!told({ tank: 'fed', ml: 1000, strength: 0.5, feed: 'leafy' }).includes(t.feedGone('leafy')));
});

test('of an order for several cups each one’s own trouble is told by name, the rest once', () => {
  const bench = benchOf([cupOf(), cupOf({ cup: 'A2', room_ml: 1 })]);
  const told = words(before('dose', bench, { cups: ['A1', 'A2'], ml: 40, strength: 0 }));
  assert.ok(told.includes(`A2: ${t.noRoom}`));
  assert.equal(told.filter((line) => line === t.nothingHolds).length, 1);
});

test('what stands on the place is said before the hose is filled', () => {
  const told = (state) => words(before('prime', benchOf([cupOf({ state })]), { cup: 'A1' }))[0];
  assert.equal(told('away'), t.primeFree('A1'));
  assert.equal(told('steady'), t.primeStands('A1'));
});

test('water for the same cup within half an hour is questioned; other cups, refused and taken back are not', () => {
  const now = Date.parse('2027-02-14T08:00:00Z');
  const told = (fields = {}) => ({
    id: 'o-1',
    kind: 'watered',
    cup: 'A1',
    ml: 50,
    issued: '2027-02-14T07:58:00Z',
    receipts: [],
    ...fields,
  });
  const asked = (orders, order = {}) => repeated(now, orders, { kind: 'watered', cup: 'A1', ml: 50, ...order });
  assert.equal(asked([told()]), t.repeated('50 mL', '2 min', t.kind.watered));
  assert.ok(asked([told()], { cup: undefined, cups: ['A1', 'A2'] }));
  assert.ok(asked([told({ cup: undefined, cups: ['A2', 'A1'] })]));
  assert.equal(asked([told({ issued: '2027-02-14T07:29:00Z' })]), null);
  assert.equal(asked([told({ cup: 'A2' })]), null);
  assert.equal(asked([told({ receipts: [{ outcome: 'refused' }] })]), null);
  assert.equal(asked([told(), { id: 'o-2', kind: 'forget', order: 'o-1', issued: '2027-02-14T07:59:00Z' }]), null);
  assert.equal(asked([told({ kind: 'away' })], { kind: 'away' }), null);
});
