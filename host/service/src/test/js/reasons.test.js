import assert from 'node:assert/strict';
import { beforeEach, test } from 'node:test';
import { foundWords, reasonWords } from '../../main/resources/dev/cupwarden/host/page/js/reasons.js';
import * as u from '../../main/resources/dev/cupwarden/host/page/js/units.js';
import { publishedTables } from './published.js';

const { limits } = publishedTables();
const found = (value, threshold, unit, sentence = 'it holds') => foundWords({ code: 'frost', value, threshold, unit, sentence });

beforeEach(() => u.readFor({ language: 'en-GB' }));

test('numbers are told in the reader’s units and words', () => {
  assert.equal(found(52, 48, 'h'), 'found 52 h, limit 48 h');
  assert.equal(found(1.25, 1.2, 'mS/cm'), 'found 1.25 mS/cm, limit 1.20 mS/cm');
  assert.equal(found(-1.5, 2, 'C'), 'found -1.5 °C, limit 2.0 °C');
  assert.equal(found(0.12, 0.05, 'depletion'), 'found 12 % of its usable water gone, limit 5 % of its usable water gone');
  assert.equal(found(1.1, 1, 'label'), 'found 110 % of one label feed, limit 100 % of one label feed');
  u.choose({ temp: 'f', volume: 'floz' });
  assert.equal(found(0, 2, 'C'), 'found 32.0 °F, limit 35.6 °F');
  assert.equal(found(29.5735, 59.147, 'mL'), 'found 1.0 fl oz, limit 2.0 fl oz');
});

test('a stage is no number, and what the sentence says is not said again', () => {
  assert.equal(found(0, 2, 'stage'), '');
  assert.equal(found(52, 48, 'h', 'wet for 52 h, the limit is 48 h'), '');
  assert.equal(found(52, 0, 'h'), '');
  assert.equal(found(null, 48, 'h'), '');
});

test('each unit of the core’s table is a quantity, or is put in words', () => {
  const quantities = ['', 'h', 'min', 'mL', 'mS/cm', 'mg/L N'];
  for (const { code, unit } of limits) {
    if (quantities.includes(unit)) assert.equal(found(3, 4, unit), `found 3 ${unit}, limit 4 ${unit}`.replace(' ,', ',').trim());
    else assert.doesNotMatch(found(3, 4, unit), new RegExp(`\\d ${unit}\\b`), code);
  }
});

test('a limit’s name is not said twice', () => {
  assert.deepEqual(reasonWords({ code: 'frost', sentence: 'frost: 1.0 °C, the limit is 2.0 °C' }), [
    'frost',
    ': 1.0 °C, the limit is 2.0 °C',
  ]);
  assert.deepEqual(reasonWords({ code: 'soak', sentence: 'waits for the soak' }), ['soaking', ': waits for the soak']);
});
