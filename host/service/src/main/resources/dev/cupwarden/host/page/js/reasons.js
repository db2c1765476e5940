// Reasons that hold a cup back, in words, with what was found and what it was held against.

import { nameOfLimit } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.cup;

const withUnit = (value, unit) => `${u.number(value, value % 1 ? 2 : 0)}${unit ? ` ${unit}` : ''}`;

/** "found 0.12, limit 0.05"; nothing where there is no number to hold it against. */
export function foundWords(reason) {
  if (!Number.isFinite(reason.value) || !reason.threshold) return '';
  const says = (value) => [0, 1, 2].some((digits) => reason.sentence.includes(value.toFixed(digits)));
  if (says(reason.value) && says(reason.threshold)) return '';
  return `${t.found} ${withUnit(reason.value, reason.unit)}, ${t.limit} ${withUnit(reason.threshold, reason.unit)}`;
}

/** The limit's name and its sentence; the sentence alone where it begins with the name. */
export function reasonWords(reason) {
  const name = nameOfLimit(reason.code);
  const said = reason.sentence.toLowerCase().startsWith(name.toLowerCase());
  return said ? [reason.sentence.slice(0, name.length), reason.sentence.slice(name.length)] : [name, `: ${reason.sentence}`];
}
