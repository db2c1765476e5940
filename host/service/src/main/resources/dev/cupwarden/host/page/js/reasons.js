// Reasons that hold a cup back, in words, with what was found and what it was held against.

import { nameOfLimit } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.cup;

/** A reason's number in the reader's words, by the unit that the table of limits gives it. */
const SHOWN = {
  C: (value) => u.temp(value),
  mL: (value) => u.volume(value, value % 1 ? 1 : 0),
  depletion: (value) => t.gone(u.percent(value)),
  label: (value) => t.ofLabel(u.percent(value)),
};
const withUnit = (value, unit) => SHOWN[unit]?.(value) ?? `${u.number(value, value % 1 ? 2 : 0)}${unit ? ` ${unit}` : ''}`;

/** "found 52 h, limit 48 h"; nothing where the sentence says it, or there is no number to hold it against. */
export function foundWords(reason) {
  // A root stage is no quantity; its sentence says what is missing.
  if (!Number.isFinite(reason.value) || !reason.threshold || reason.unit === 'stage') return '';
  const says = (value) => [0, 1, 2].some((digits) => reason.sentence.includes(value.toFixed(digits)));
  if (says(reason.value) && says(reason.threshold)) return '';
  return t.found(withUnit(reason.value, reason.unit), withUnit(reason.threshold, reason.unit));
}

/** The limit's name and its sentence; the sentence alone where it begins with the name. */
export function reasonWords(reason) {
  const name = nameOfLimit(reason.code);
  const said = reason.sentence.toLowerCase().startsWith(name.toLowerCase());
  return said ? [reason.sentence.slice(0, name.length), reason.sentence.slice(name.length)] : [name, `: ${reason.sentence}`];
}
