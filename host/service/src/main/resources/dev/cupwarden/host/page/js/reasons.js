// Reasons that hold a cup back, in words, with what was found and what it was held against.

import { h } from './dom.js';
import { nameOfLimit } from './reading.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.cup;

const withUnit = (value, unit) => `${u.number(value, value % 1 ? 2 : 0)}${unit ? ` ${unit}` : ''}`;

/** "found 0.12, limit 0.05"; nothing where the reason is no number. */
export function foundWords(reason) {
  if (!Number.isFinite(reason.value) || (reason.value === 0 && reason.threshold === 0)) return '';
  return `${t.found} ${withUnit(reason.value, reason.unit)}, ${t.limit} ${withUnit(reason.threshold, reason.unit)}`;
}

/** One list item a reason. */
export function reasonItems(reasons) {
  return reasons.map((reason) => {
    const found = foundWords(reason);
    return h('li', { class: 'stop' }, h('strong', null, nameOfLimit(reason.code)), ': ', reason.sentence, found ? h('span', { class: 'quiet' }, ` (${found})`) : null);
  });
}
