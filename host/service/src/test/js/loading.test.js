import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';

const folder = new URL('../../main/resources/dev/cupwarden/host/page/js/', import.meta.url);
const DRAWS = /\b(document|window|navigator|localStorage|location|getComputedStyle|matchMedia|EventSource)\b/;
const sources = new Map(readdirSync(folder).map((name) => [name, readFileSync(new URL(name, folder), 'utf8')]));
const importsOf = (name) => [...sources.get(name).matchAll(/^import .* from '(.*)';$/gm)].map((found) => found[1]);
const codeOf = (name) => sources.get(name).replace(/\/\*[^]*?\*\/|\/\/.*|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g, '');

/** Whether a module, or one that it imports, touches a browser or draws. */
function needsBrowser(name, seen = new Set()) {
  if (seen.has(name)) return false;
  seen.add(name);
  return DRAWS.test(codeOf(name)) || importsOf(name).some((other) => !other.startsWith('./') || needsBrowser(other.slice(2), seen));
}

const pure = [...sources.keys()].filter((name) => !needsBrowser(name));

test('what reckons and words does not touch a browser', () => {
  for (const name of ['orders.js', 'reading.js', 'reasons.js', 'season.js', 'tables.js', 'text.js', 'units.js']) {
    assert.ok(pure.includes(name), `${name} touches a browser`);
  }
});

for (const name of pure) {
  test(`${name} loads without a browser`, async () => {
    assert.ok(Object.keys(await import(new URL(name, folder))).length > 0);
  });
}
