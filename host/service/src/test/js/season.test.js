import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fateOf, wilson } from '../../main/resources/dev/cupwarden/host/page/js/season.js';

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
