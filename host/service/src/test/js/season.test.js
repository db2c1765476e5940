import assert from 'node:assert/strict';
import { test } from 'node:test';
import { besideBand, fateOf, foretold, wilson } from '../../main/resources/dev/cupwarden/host/page/js/season.js';

const near = (found, expected) => assert.ok(Math.abs(found - expected) < 1e-4, `${found}, expected ${expected}`);

// Wilson's interval by its formula with z = 1.96, by hand: 8 of 10 gives 0.4902 to 0.9433, 0 of 10 gives 0 to 0.2775.
test('small numbers have wide intervals', () => {
  near(wilson(8, 10)[0], 0.4902);
  near(wilson(8, 10)[1], 0.9433);
  near(wilson(0, 10)[0], 0);
  near(wilson(0, 10)[1], 0.2775);
  assert.deepEqual(wilson(0, 0), [0, 1]);
});

test('what became of a cutting', () => {
  assert.equal(fateOf({ gone: '2027-02-01T10:00:00Z', because: 'rotted', stage: 'struck' }), 'rotted');
  assert.equal(fateOf({ gone: '2027-02-01T10:00:00Z', stage: 'white' }), 'other');
  assert.equal(fateOf({ gone: null, stage: 'toughened' }), 'growing');
  assert.equal(fateOf({ gone: null, stage: 'circling' }), 'growing');
  assert.equal(fateOf({ gone: null, stage: 'white' }), 'unknown');
});

test('a band is true from its first to its last day', () => {
  const band = { from: '2027-02-27', likely: '2027-03-05', to: '2027-03-11' };
  assert.equal(besideBand({ ...band, day: '2027-02-26' }), 'before');
  assert.equal(besideBand({ ...band, day: '2027-02-27' }), 'within');
  assert.equal(besideBand({ ...band, day: '2027-03-11' }), 'within');
  assert.equal(besideBand({ ...band, day: '2027-03-12' }), 'after');
});

test('what was foretold and seen stands with its cutting, the last seen first', () => {
  const white = { roots: 'white', day: '2027-02-20', from: '2027-02-10', likely: '2027-02-15', to: '2027-02-25' };
  const toughened = { ...white, roots: 'toughened', day: '2027-03-09' };
  const cuttings = [{ cup: 'A1', foretold: [white, toughened] }, { cup: 'A2' }, { cup: 'A3', foretold: [white] }];
  const told = foretold(cuttings).map(({ cutting, roots, day }) => [cutting.cup, roots, day]);
  assert.deepEqual(told, [
    ['A1', 'toughened', '2027-03-09'],
    ['A1', 'white', '2027-02-20'],
    ['A3', 'white', '2027-02-20'],
  ]);
});
