// The tables of limits and alerts as the core publishes them with a set-up; PageModulesTest writes them before it runs these tests.

import { readFileSync } from 'node:fs';
import { learn } from '../../main/resources/dev/cupwarden/host/page/js/tables.js';

const written = new URL('../../../target/page/tables.json', import.meta.url);

/** {limits, alerts}, which the page's tables have then learned. */
export function publishedTables() {
  const tables = JSON.parse(readFileSync(written, 'utf8'));
  learn(tables);
  return tables;
}
