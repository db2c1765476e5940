// Which orders are for a cup as it stands, and of the others why not now. It only sorts what is offered: the controller decides.

import { holdingWater, isAway, isHeldWhole } from './reading.js';
import { reasonWords } from './reasons.js';
import { alertOf, limitOf, passes } from './tables.js';
import { text } from './text.js';

const t = text.doing.notNow;

/** Why no pump waters the cup, as its bench is set up; null where one does. */
export function withoutPump(bench, cup) {
  if (bench.setup?.watched || bench.alerts.some((alert) => alert.code === 'watch-only')) return t.watchOnly;
  return bench.setup?.free && !bench.setup.cups[cup.cup]?.wired?.valve ? t.noValve : null;
}

/** What refuses a person's water of that cause, by the controller's own table of limits. */
function refusesWater(cause, bench, cup) {
  const pumpless = withoutPump(bench, cup);
  if (pumpless) return pumpless;
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

/** Keys of the bench file that are of that cup and may be changed; none of a cup that an order added. */
export const keysOf = (bench, name) => (bench.setup?.keys ?? []).filter(({ path }) => path.startsWith(`cups.${name}.`));

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
  prime: (bench, cup) => withoutPump(bench, cup) ?? (hasNoHose(bench) ? t.noHose : isAway(cup) ? null : t.stands),
  change: (bench, cup) => (keysOf(bench, cup.cup).length > 0 ? null : t.notInFile),
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
/** In place of it, by the hand of a person, for cups that no pump waters. */
const BY_HAND = { dose: 'watered', flush: 'watered' };

/** `names` of the cups that it is of. */
export function askedBy(code, bench, names) {
  const kind = ASKED_BY[code] ?? (alertOf(code)?.clear ? 'clear' : null);
  const cups = names.map((name) => bench.cups.get(name)).filter(Boolean);
  return BY_HAND[kind] && cups.some((cup) => withoutPump(bench, cup)) ? BY_HAND[kind] : kind;
}

/** Why an order of that kind is not for this cup now, in a sentence; null where it is. */
export const whyNot = (kind, bench, cup) => NOT_NOW[kind]?.(bench, cup) ?? null;

/** Of these cups, those that it is for now. */
export const fitting = (kind, bench, names) => names.filter((name) => bench.cups.has(name) && !whyNot(kind, bench, bench.cups.get(name)));
