// What is to come on a bench, day by day, and what was: put together from what the controller and the host tell, reckoned from nothing else.

import { compareNames, holdEndsOf, holdingWater, isAway, isHeldWhole, waterMs } from './reading.js';
import { limitOf } from './tables.js';
import * as u from './units.js';

const DAY_MS = 24 * 3600e3;
export const DAYS_AHEAD = 7;
/** Alerts that are spells of the climate. */
export const SPELLS = ['cold', 'frost', 'heat'];

/** The reader's day of a moment, as 2027-02-14. */
export const dayOf = (ms) => u.typedMinute(ms).slice(0, 10);
/** When a day begins for the reader, epoch ms. */
export const startOf = (day) => u.msFromTyped(`${day}T00:00`);
export const dayAfter = (day) => dayOf(startOf(day) + 1.5 * DAY_MS);

/** Limits that refuse water to a cup that is due; what only waits for its turn or soaks is watered now. */
const refusing = (cup) =>
  holdingWater(cup)
    .map((reason) => reason.code)
    .filter((code) => limitOf(code)?.dose !== 'waits');

/** Water to come: of each cup the next one, as the controller tells it. */
const waters = (bench) =>
  [...bench.cups.values()]
    .filter((cup) => waterMs(cup) !== null)
    .map((cup) => ({
      kind: 'water',
      at: Math.max(waterMs(cup), bench.now),
      cup: cup.cup,
      held: waterMs(cup) > bench.now ? [] : refusing(cup),
    }));

const empties = (tanks) =>
  tanks.filter((tank) => tank.lasts_until).map((tank) => ({ kind: 'empty', at: Date.parse(tank.lasts_until), tank: tank.tank }));

/** Days on which roots are likely: a person looks. */
const looks = (bench) =>
  [...bench.cups.values()].flatMap((cup) => {
    const next = cup.rooting?.white ?? cup.rooting?.toughened;
    return next ? [{ kind: 'look', at: startOf(next.likely), cup: cup.cup }] : [];
  });

const switches = (bench) => (bench.setup?.feeding?.plan ?? []).map((step) => ({ kind: 'feed', at: startOf(step.from), feed: step.feed }));

/** The dark season's first and last day, in the years about now. */
function pauses(bench) {
  const pause = bench.setup?.feeding?.pause;
  if (!pause) return [];
  const year = Number(dayOf(bench.now).slice(0, 4));
  const on = (words, of) => startOf(`${of}-${words.replace(/^--/, '')}`);
  return [year, year + 1].flatMap((of) => [
    { kind: 'dark', at: on(pause.from, of) },
    { kind: 'light', at: on(pause.until, of) },
  ]);
}

/** Holds that end by themselves; one of the whole bench is told by each of its cups. */
function holdEnds(bench) {
  const whole = isHeldWhole(bench);
  const ends = new Map();
  for (const cup of bench.cups.values()) for (const end of holdEndsOf(cup)) ends.set(whole ? '*' : cup.cup, end);
  return [...ends].map(([cup, at]) => ({ kind: 'release', at, cup: cup === '*' ? null : cup }));
}

/** The next seven days, today first: [{day, items: [{kind, at, …}]}], each day's items by their time. */
export function comingDays(bench, tanks) {
  const items = [...waters(bench), ...empties(tanks), ...looks(bench), ...switches(bench), ...pauses(bench), ...holdEnds(bench)];
  const days = [];
  for (let day = dayOf(bench.now); days.length < DAYS_AHEAD; day = dayAfter(day)) {
    const own = items.filter((item) => dayOf(item.at) === day);
    days.push({ day, items: own.sort((a, b) => a.at - b.at || compareNames(a.cup ?? '', b.cup ?? '')) });
  }
  return days;
}

/** Cups of which nobody can say when they are watered next, but for those that are away. */
export const withoutForecast = (bench) =>
  [...bench.cups.values()].filter((cup) => waterMs(cup) === null && !isAway(cup)).map((cup) => cup.cup);

/** Sums of what was given: {plain_ml, feed_ml, passes} for each of a field's values, such as `cup` or `why`. */
export function sumsBy(given, field) {
  const sums = new Map();
  for (const row of given) {
    const sum = sums.get(row[field]) ?? { plain_ml: 0, feed_ml: 0, passes: 0 };
    for (const part of Object.keys(sum)) sum[part] += row[part];
    sums.set(row[field], sum);
  }
  return sums;
}

/** From raisings and clearings: [{code, cup, from, to}] with `to` null while it is open; oldest first. */
export function spellsOf(events, codes = SPELLS) {
  const open = new Map();
  const spells = [];
  for (const { at, data } of [...events].sort((a, b) => Date.parse(a.at) - Date.parse(b.at))) {
    if (!codes.includes(data.code) || data.state === 'warned') continue;
    const key = `${data.code}/${data.cup ?? ''}`;
    if (data.state === 'cleared') {
      if (open.has(key)) open.get(key).to = Date.parse(at);
      open.delete(key);
    } else if (!open.has(key)) {
      const spell = { code: data.code, cup: data.cup ?? null, from: Date.parse(data.since), to: null };
      open.set(key, spell);
      spells.push(spell);
    }
  }
  return spells;
}

/** Holds of the whole bench or of cups, from orders that were done: [{cups, from, to}], oldest first; a release or a new hold ends one. */
export function holdsOf(orders) {
  const holds = [];
  const done = orders.filter((order) => ['hold', 'release'].includes(order.kind) && order.receipts?.at(-1)?.outcome === 'done');
  for (const order of done.sort((a, b) => Date.parse(a.issued) - Date.parse(b.issued))) {
    const cups = order.cups ?? (order.cup ? [order.cup] : null);
    const at = Date.parse(order.issued);
    for (const hold of holds) {
      const same = cups === null ? order.kind === 'release' || hold.cups === null : hold.cups?.every((cup) => cups.includes(cup));
      if (same && hold.to > at) hold.to = at;
    }
    if (order.kind === 'hold' && !order.feed_only) holds.push({ cups, from: at, to: Date.parse(order.until) });
  }
  return holds;
}
