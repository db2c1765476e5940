import assert from 'node:assert/strict';
import { beforeEach, test } from 'node:test';
import * as u from '../../main/resources/dev/cupwarden/host/page/js/units.js';

const shelf = (kept = {}) => ({
  getItem: (key) => kept[key] ?? null,
  setItem: (key, value) => {
    kept[key] = value;
  },
});

beforeEach(() => {
  u.readFor({ language: 'en-GB', storage: () => shelf() });
  u.useBenchZone(null);
});

test('quantities in SI units', () => {
  assert.equal(u.volume(30), '30 mL');
  assert.equal(u.mass(312.44), '312.4 g');
  assert.equal(u.rate(1.5), '1.50 g/h');
  assert.equal(u.temp(18.5), '18.5 °C');
  assert.equal(u.tank(999), '999 mL');
  assert.equal(u.tank(12000), '12.0 L');
  assert.equal(u.percent(0.405), '41 %');
});

// NIST Handbook 44, appendix C: 1 US fl oz is 29.573 53 mL, 1 US gal 3.785 412 L, 1 oz avoirdupois 28.349 52 g.
test('quantities in customary units', () => {
  u.choose({ volume: 'floz', mass: 'oz', temp: 'f' });
  assert.equal(u.volume(29.57353), '1.0 fl oz');
  assert.equal(u.tank(3785.412), '1.00 gal');
  assert.equal(u.mass(283.4952), '10.00 oz');
  assert.equal(u.temp(100), '212.0 °F');
  assert.equal(u.temp(-40), '-40.0 °F');
  assert.equal(u.cFromTyped(212), 100);
  assert.ok(Math.abs(u.mlFromTyped(2) - 59.14706) < 1e-4);
  assert.ok(Math.abs(u.typedFromMl(u.mlFromTyped(1.7)) - 1.7) < 1e-12);
});

test('what is not known is a dash', () => {
  for (const quantity of [u.volume, u.tank, u.mass, u.rate, u.temp, u.percent]) {
    for (const none of [null, undefined, NaN]) assert.equal(quantity(none), '–');
  }
});

test('numbers are written as in the reader’s language, and nothing is minus zero', () => {
  assert.equal(u.number(1234.5, 1), '1,234.5');
  assert.equal(u.number(-0), '0');
  u.readFor({ language: 'de' });
  assert.equal(u.number(1234.5, 1), '1.234,5');
  assert.equal(u.volume(30), '30 mL');
});

test('a choice is kept; a storage that is spoilt or refused leaves the usual units', () => {
  const kept = {};
  u.readFor({ language: 'en-GB', storage: () => shelf(kept) });
  u.choose({ volume: 'floz' });
  u.readFor({ language: 'en-GB', storage: () => shelf(kept) });
  assert.equal(u.choice().volume, 'floz');

  u.readFor({ language: 'en-GB', storage: () => shelf({ 'cupwarden.units': '{"volume":' }) });
  assert.equal(u.choice().volume, 'ml');

  const refuse = () => {
    throw new Error('refused');
  };
  u.readFor({ language: 'en-GB', storage: refuse });
  u.choose({ mass: 'oz' });
  assert.equal(u.mass(28.349523125), '1.00 oz');
});

test('spans are told in their two largest units', () => {
  const spans = [
    [12e3, '12 s'],
    [-5e3, '0 s'],
    [35 * 60e3, '35 min'],
    [5 * 3600e3, '5 h'],
    [(5 * 60 + 20) * 60e3, '5 h 20 min'],
    [7.6 * 3600e3, '8 h'],
    [51 * 3600e3, '2 d 3 h'],
    [47.8 * 3600e3, '2 d'],
    [9 * 86400e3, '9 d'],
  ];
  for (const [ms, told] of spans) assert.equal(u.span(ms), told);
});

// United States: clocks went from 2:00 to 3:00 on the second Sunday of March (15 U.S.C. 260a), 14 March 2027.
test('typed times mean the zone that is shown, also where summer time begins', () => {
  u.choose({ zone: 'bench' });
  u.useBenchZone('America/New_York');
  assert.equal(u.zone(), 'America/New_York');
  assert.equal(u.typedMinute(Date.parse('2027-02-14T13:00:00Z')), '2027-02-14T08:00');
  assert.equal(u.msFromTyped('2027-02-14T08:00'), Date.parse('2027-02-14T13:00:00Z'));
  assert.equal(u.msFromTyped('2027-03-14T01:30'), Date.parse('2027-03-14T06:30:00Z'));
  assert.equal(u.msFromTyped('2027-03-14T03:30'), Date.parse('2027-03-14T07:30:00Z'));
  assert.ok(Number.isNaN(u.msFromTyped('')));
});

test('the bench’s day is that of its own place, whatever zone is shown', () => {
  const at = Date.parse('2027-02-14T23:30:00Z');
  u.choose({ zone: 'device' });
  u.useBenchZone('Europe/Helsinki');
  assert.equal(u.benchDay(at), '2027-02-15');
  u.useBenchZone(null);
  assert.equal(u.benchDay(at), '2027-02-14');
});

test('dates and clock as chosen', () => {
  const at = Date.parse('2027-02-14T18:05:00Z');
  u.choose({ zone: 'bench', dates: 'iso', clock: '24' });
  u.useBenchZone('Europe/London');
  assert.equal(u.date(at), '2027-02-14');
  assert.equal(u.clockTime(at), '18:05');
  u.choose({ dates: 'mdy', clock: '12' });
  assert.equal(u.date(at), 'Feb 14, 2027');
  assert.match(u.clockTime(at), /^0?6:05\spm$/i);
  assert.equal(u.near(at, at - 3600e3), u.clockTime(at));
  assert.equal(u.near(at, at - 86400e3), u.dayTime(at));
});
