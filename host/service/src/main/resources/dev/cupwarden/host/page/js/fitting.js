// Which orders are for a cup as it stands, and of the others why not now. It only sorts what is offered: the controller decides.

import { holdingWater, isAway, isHeldWhole } from './reading.js';
import { reasonWords } from './reasons.js';
import { alertOf, limitOf, passes } from './tables.js';
import { text } from './text.js';

const t = text.doing.notNow;

/** What refuses a person's water of that cause, by the controller's own table of limits. */
function refusesWater(cause, bench, cup) {
  if (bench.alerts.some((alert) => alert.code === 'watch-only')) return t.watchOnly;
  if (isAway(cup)) return t.away;
  const holding = holdingWater(cup).find((reason) => limitOf(reason.code)?.dose === 'refused' && !passes(cause, reason.code));
  return holding ? reasonWords(holding).join('') : null;
}

const isCovered = (bench, cup) => bench.setup?.cups?.[cup.cup]?.covered === true;
const isHeldAlone = (bench, cup) => (bench.status?.holds ?? []).includes(cup.cup);

/** A bench of a controller that does not tell its file may have a hose. */
function hasNoHose(bench) {
  const keys = bench.setup?.keys ?? [];
  return keys.length > 0 && !keys.some(({ path }) => path.startsWith('hose.'));
}

const NOT_NOW = {
  dose: (bench, cup) => refusesWater('order', bench, cup),
  flush: (bench, cup) =>
    bench.alertsOf(cup.cup).some((alert) => alert.code === 'salts-high') ? refusesWater('flush', bench, cup) : t.noSalts,
  drained: (_bench, cup) => (isAway(cup) ? t.away : null),
  hold: (bench, cup) => (isHeldAlone(bench, cup) ? t.held : isHeldWhole(bench) ? t.benchHeld : null),
  release: (bench, cup) => (isHeldAlone(bench, cup) ? null : isHeldWhole(bench) ? t.benchHeldOnly : t.notHeld),
  clear: (bench, cup) => (bench.alertsOf(cup.cup).some((alert) => alertOf(alert.code)?.clear) ? null : t.nothingToClear),
  away: (_bench, cup) => (isAway(cup) ? t.awayAlready : null),
  back: (_bench, cup) => (isAway(cup) ? null : t.stands),
  cover: (bench, cup) => (isCovered(bench, cup) ? t.covered : null),
  uncover: (bench, cup) => (isCovered(bench, cup) ? null : t.open),
  prime: (bench, cup) => (hasNoHose(bench) ? t.noHose : isAway(cup) ? null : t.stands),
};

/** The order that an alert asks for, where one order is the answer; what a person clears is cleared. */
const ASKED_BY = {
  'near-dry': 'dose',
  'salts-high': 'flush',
  'weigh-drained': 'drained',
  'look-at-roots': 'stage',
  'cup-away': 'back',
  'lift-cover': 'uncover',
  'pot-on': 'repot',
  'pot-bound': 'repot',
  'tank-low': 'filled',
  'tank-empty': 'filled',
  'feed-old': 'filled',
};
export const askedBy = (code) => ASKED_BY[code] ?? (alertOf(code)?.clear ? 'clear' : null);

/** Why an order of that kind is not for this cup now, in a sentence; null where it is. */
export const whyNot = (kind, bench, cup) => NOT_NOW[kind]?.(bench, cup) ?? null;

/** Of these cups, those that it is for now. */
export const fitting = (kind, bench, names) => names.filter((name) => bench.cups.has(name) && !whyNot(kind, bench, bench.cups.get(name)));
