// What a cup's numbers mean to a grower: its group, its order among others, its forecast in words.

import { isOnFeed, rankOf as rankOfAlert } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

export const TROUBLE = ['dry', 'wet', 'untrusted'];
const NOW = ['watering', 'due', 'soaking'];
const ASIDE = ['held', 'away'];

export const GROUPS = ['trouble', 'now', 'aside', 'steady'];

export function groupOf(bench, cup) {
  if (TROUBLE.includes(cup.state) || bench.alertsOf(cup.cup).length > 0) return 'trouble';
  if (NOW.includes(cup.state)) return 'now';
  return ASIDE.includes(cup.state) ? 'aside' : 'steady';
}

/** The alert that a cup's state says nothing of; it stands in the state's place. Of a warning the state still holds. */
export function alertBefore(bench, cup) {
  if (TROUBLE.includes(cup.state)) return null;
  const raised = bench.alertsOf(cup.cup).filter((alert) => alert.state !== 'warned');
  return raised.sort((a, b) => rankOfAlert(a.code) - rankOfAlert(b.code))[0] ?? null;
}

/** Off the bench: by a person's word, by an empty scale, or out as each day. */
export const isAway = (cup) => cup.state === 'away';

function rankOf(cup) {
  const order = [...TROUBLE, ...NOW, ...ASIDE, 'steady'];
  return order.indexOf(cup.state);
}

const dueMs = (cup) => (cup.due_at ? Date.parse(cup.due_at) : Infinity);

/** Trouble first, then by when due, then by name as a person counts (A2 before A10). */
export function compareCups(a, b) {
  const byRank = rankOf(a) - rankOf(b);
  if (byRank) return byRank;
  const [dueA, dueB] = [dueMs(a), dueMs(b)];
  if (dueA !== dueB) return dueA - dueB;
  return compareNames(a.cup, b.cup);
}

const collator = new Intl.Collator(undefined, { numeric: true });
export const compareNames = (a, b) => collator.compare(a, b);

/** Water left as a part of what the cutting can use; above 1 past capacity. */
export const leftOf = (depletion) => (depletion === null || depletion === undefined ? null : Math.max(0, 1 - depletion));

export function leftWords(cup) {
  const left = leftOf(cup.depletion);
  return left === null ? text.bench.leftUnknown : text.bench.left(u.percent(left));
}

/** "due in 5 h", "due now, dry in 9 h": seen from the bench's own now. */
export function forecastWords(cup, now) {
  if (cup.state === 'away' || !cup.trusted) return text.bench.noForecast;
  const dry = cup.dry_at ? Date.parse(cup.dry_at) - now : null;
  if (cup.state === 'dry' || cup.state === 'wet') return text.stateMeans[cup.state].split(':')[0];
  const pastDue = cup.depletion !== null && cup.depletion >= cup.due;
  if (pastDue || (cup.due_at && Date.parse(cup.due_at) <= now)) {
    return dry !== null && dry > 0 ? `${text.bench.dueNow}, ${text.bench.dry(u.span(dry))}` : text.bench.dueNow;
  }
  return cup.due_at ? text.bench.due(u.span(Date.parse(cup.due_at) - now)) : text.bench.noForecast;
}

/** Epoch ms when it is likely watered next, in open hours and past a hold; null where nobody knows. A controller of before tells only when it is due. */
export function waterMs(cup) {
  const at = cup.water_at ?? cup.due_at;
  return at && !isAway(cup) ? Date.parse(at) : null;
}

/** Whether all of a bench is held. */
export const isHeldWhole = (bench) => (bench.status?.holds ?? []).includes('*');

/** When the holds of a cup end, as its reasons tell, epoch ms. */
export const holdEndsOf = (cup) =>
  cup.reasons.filter((reason) => reason.code === 'hold').map((reason) => Date.parse(cup.at) + reason.value * 3600e3);

/** Until when the whole bench is held, epoch ms; null where it is not, NaN where no cup says until when. */
export function heldUntilMs(bench) {
  if (!isHeldWhole(bench)) return null;
  const ends = [...bench.cups.values()].flatMap(holdEndsOf);
  return ends.length > 0 ? Math.max(...ends) : NaN;
}

/** Epoch ms by which one in ten such cups is dry; null where that is unknown. A controller of before tells only when it likely is. */
export function dryBeforeMs(cup) {
  const at = cup.dry_before ?? cup.dry_at;
  return at ? Date.parse(at) : null;
}

/** Gross grams at a depletion of this cup; water is 1 g per mL. */
export const massAt = (cup, depletion) => cup.capacity_g - depletion * cup.available_ml;
export const depletionAt = (cup, massG) => (cup.capacity_g - massG) / cup.available_ml;

const severityOf = (alert) => alert.severity ?? 0;

/** Which alert it is among those of one bench. */
export const keyOfAlert = ({ code, cup, tank }) => `${code}/${cup ?? (tank ? `tank:${tank}` : '*')}`;

/** Alerts as one line for each code, with the cups it names; one of the whole bench or of a tank stands on its own, before all of cups. The gravest first. */
export function alertsByCause(alerts) {
  const causes = new Map();
  for (const alert of alerts) {
    const key = alert.cup ? alert.code : keyOfAlert(alert);
    const cause = causes.get(key) ?? { code: alert.code, tank: alert.tank, ofBench: !alert.cup, alerts: [], since: alert.since };
    cause.alerts.push(alert);
    if (alert.since < cause.since) cause.since = alert.since;
    causes.set(key, cause);
  }
  for (const cause of causes.values()) cause.alerts.sort((a, b) => severityOf(b) - severityOf(a));
  const warnedOnly = (cause) => (cause.alerts.every((alert) => alert.state === 'warned') ? 1 : 0);
  const worst = (cause) => severityOf(cause.alerts[0]);
  return [...causes.values()].sort(
    (a, b) => warnedOnly(a) - warnedOnly(b) || b.ofBench - a.ofBench || rankOfAlert(a.code) - rankOfAlert(b.code) || worst(b) - worst(a),
  );
}

/** The reasons that hold water back from a cup, not only feed. */
export const holdingWater = (cup) => (cup?.reasons ?? []).filter((reason) => !isOnFeed(reason.code));
export const holdingFeed = (cup) => (cup?.reasons ?? []).filter((reason) => isOnFeed(reason.code));

/** The one limit that holds back every cup of a cause, if there is one: the cause behind them all. */
export function commonLimit(bench, cause) {
  const held = cause.alerts.map((alert) => holdingWater(bench.cups.get(alert.cup)).map((reason) => reason.code));
  if (held.length < 2) return null;
  return held[0].find((code) => held.every((codes) => codes.includes(code))) ?? null;
}

/** A strength that was given or asked for, with its nitrogen where the bench has but one feed that it can be of. */
export function strengthWords(setup, strength) {
  const feeds = Object.keys(setup?.feeds ?? {});
  const held = strength > 0 && feeds.length === 1 ? concentrationOf(setup, feeds[0], strength) : null;
  return held ? text.cup.strengthOf(u.number(strength, 2), u.number(held.nMgPerL)) : u.number(strength, 2);
}

/**
 * What a feed of that label strength holds: nitrogen as the element and conductivity with the water's own; null where the bench has not
 * told of that feed.
 */
export function concentrationOf(setup, feedName, strength) {
  const feed = setup?.feeds?.[feedName];
  if (!feed) return null;
  const gPerL = strength * feed.label_g_per_l;
  return {
    nMgPerL: gPerL * feed.n_pct * 10,
    ecMsPerCm: setup.water_ec_ms_per_cm + gPerL * feed.ec_ms_per_cm_per_g_per_l,
  };
}

/** Doses too near one another to be named each, as one: [{x, at, ml, feed}]. */
export function dosesTogether(doses, xOf, least) {
  const together = [];
  for (const dose of doses) {
    const last = together.at(-1);
    const x = xOf(dose.at);
    if (last && x - last.x < least) {
      last.ml += dose.ml;
      last.feed ||= dose.feed;
    } else together.push({ x, ml: dose.ml, feed: dose.feed });
  }
  return together;
}

/** Means of values by whole day, oldest first; `dayOf(at)` names the day of a moment. The first and the last day are seldom whole. */
export function dailyMeans(at, values, dayOf) {
  const days = new Map();
  values.forEach((value, i) => {
    if (!Number.isFinite(value)) return;
    const day = days.get(dayOf(at[i])) ?? { sum: 0, n: 0 };
    days.set(dayOf(at[i]), { sum: day.sum + value, n: day.n + 1 });
  });
  return [...days.values()].slice(1, -1).map(({ sum, n }) => sum / n);
}

/** What a curve comes to, in words: its least and its most, and the means of its whole days where there are two; `said(value)` words one. */
export function curveWords(at, values, dayOf, said) {
  const known = values.filter(Number.isFinite);
  const means = dailyMeans(at, values, dayOf);
  const c = text.course;
  return [
    c.between(said(Math.min(...known)), said(Math.max(...known))),
    means.length > 1 ? c.trend(said(means[0]), said(means.at(-1))) : null,
  ]
    .filter(Boolean)
    .join(' ');
}

/** What keeps people and floors safe and is not there, or not told: sentences. */
export const runsWithout = (bench) => (bench.setup?.runs_without ?? []).map((sentence) => sentence.replace(/([^.])$/, '$1.'));
