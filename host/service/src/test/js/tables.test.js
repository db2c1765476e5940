import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as tables from '../../main/resources/dev/cupwarden/host/page/js/tables.js';

test('before a controller has published its tables a code stands for its name', () => {
  assert.equal(tables.nameOfLimit('wet-too-long'), 'wet too long');
  assert.equal(tables.nameOfAlert('tank-low'), 'Tank low');
  assert.deepEqual(tables.liftable(), []);
  assert.equal(tables.isOnFeed('hold'), false);
  assert.equal(tables.passes('rescue', 'hold'), false);
});

test('each published limit and alert is known by its code', async () => {
  const { publishedTables } = await import('./published.js');
  const { limits, alerts } = publishedTables();
  assert.ok(limits.length > 0 && alerts.length > 0);
  for (const limit of limits) {
    assert.equal(tables.nameOfLimit(limit.code), limit.name);
    assert.equal(tables.isOnFeed(limit.code), limit.on === 'feed');
    for (const cause of limit.passed_by) assert.ok(tables.passes(cause, limit.code));
    assert.equal(tables.passes('no such cause', limit.code), false);
  }
  alerts.forEach((alert) => {
    assert.equal(tables.nameOfAlert(alert.code), alert.name);
    assert.equal(tables.rankOf(alert.code), alert.rank);
    assert.ok(tables.rankOf(alert.code) < tables.rankOf('of a later version'));
  });
});

test('a person may lift for one dose what the core says may be lifted', async () => {
  const { publishedTables } = await import('./published.js');
  const { limits } = publishedTables();
  assert.deepEqual(
    tables.liftable(),
    limits.filter((limit) => limit.dose === 'lifts').map((limit) => limit.code),
  );
  assert.ok(tables.liftable().includes('no-dry-back'));
  assert.ok(!tables.liftable().includes('hardware'));
});
