// What a person may ask of a bench: the fields of each order, and what can be said of it beforehand.

import { withoutPump } from './fitting.js';
import { compareNames, dryBeforeMs, forecastWords, holdingFeed, holdingWater, leftOf, runsWithout } from './reading.js';
import { foundWords, reasonWords } from './reasons.js';
import { alertOf, liftable, nameOfAlert, nameOfLimit, passes } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.doing;

/** Fields in the order in which they are asked. A "?" marks one that may be left out; `more` are further cups of the same order. */
export const KINDS = {
  dose: { group: 'water', fields: ['cup', 'more?', 'ml', 'strength', 'lift?'] },
  flush: { group: 'water', fields: ['cup', 'ml'] },
  watered: { group: 'see', fields: ['cup', 'more?', 'ml', 'strength'] },
  drained: { group: 'see', fields: ['cup'] },
  stage: { group: 'see', fields: ['cup', 'more?', 'stage'] },
  hold: { group: 'stop', fields: ['cup?', 'more?', 'until', 'feed_only?', 'rescue?'] },
  release: { group: 'stop', fields: ['cup?', 'more?'] },
  clear: { group: 'stop', fields: ['cup?'] },
  away: { group: 'see', fields: ['cup', 'more?'] },
  back: { group: 'see', fields: ['cup', 'more?'] },
  cover: { group: 'see', fields: ['cup?', 'more?'] },
  uncover: { group: 'see', fields: ['cup?', 'more?'] },
  filled: { group: 'bench', fields: ['tank', 'ml', 'feed?', 'strength'] },
  weather: { group: 'see', fields: ['day', 'least_c', 'most_c', 'wind?'] },
  prime: { group: 'bench', fields: ['cup', 'ml', 'tank'] },
  repot: { group: 'bench', fields: ['cup', 'vessel', 'mix'] },
  add: { group: 'bench', fields: ['newcup', 'plant', 'vessel', 'mix', 'struck', 'stage', 'cutting', 'scale?', 'valve?', 'probe?'] },
  change: { group: 'bench', fields: ['key', 'to'] },
  retire: { group: 'bench', fields: ['cup', 'more?', 'because', 'confirm'] },
};
/** Orders that may be given to one cup, in the order in which they are offered. */
export const kindsOfCup = () =>
  Object.keys(KINDS).filter((kind) => KINDS[kind].fields.some((field) => field === 'cup' || field === 'cup?'));
/** A cup's own page offers these, too. */
export const KINDS_BESIDE = ['change', 'add'];
/** Whether one order of that kind may name several cups. */
export const takesSeveral = (kind) => KINDS[kind].fields.includes('more?');
export const GROUPS = ['water', 'stop', 'see', 'bench'];

/** The order that takes this one back, where there is one. */
export const BACK_BY = {
  dose: 'hold',
  flush: 'hold',
  watered: 'hold',
  drained: 'drained',
  stage: 'stage',
  hold: 'release',
  release: 'hold',
  clear: 'hold',
  away: 'back',
  back: 'away',
  cover: 'uncover',
  uncover: 'cover',
  filled: 'filled',
  weather: 'weather',
  prime: 'prime',
  repot: 'repot',
  change: 'change',
  retire: 'add',
  add: 'retire',
};
/** Orders that are taken back for a day, as if they had not been given: told what is not so. */
export const FORGOTTEN_BY = ['drained', 'watered', 'filled'];
/** The order that says a key of the bench file as it was before this one. */
export const changeBack = (order) => ({ kind: 'change', path: order.path, from: order.to ?? null, to: order.from ?? null });
/** Orders that put water out: what came of them is told by the passes that were given for them. */
export const GIVES_FOR = { dose: 'order', flush: 'flush' };

const line = (tone, words) => ({ tone, words });

/** mL that are missing up to the refill line; null where the controller does not tell. */
export const roomOf = (cup) => (Number.isFinite(cup?.room_ml) ? Math.max(0, cup.room_ml) : null);

/** How many passes the controller would give of an order; of what is missing where none is typed. */
export function passesOf(cup, orderMl) {
  let left = Math.min(roomOf(cup), orderMl > 0 ? orderMl : Infinity);
  let n = 0;
  for (; cup.next_pass_ml > 0 && left >= cup.least_pass_ml; n++) left -= Math.min(cup.next_pass_ml, left);
  return n;
}

function beforeDose(bench, cup, order) {
  const lines = [];
  const room = roomOf(cup);
  if (room === null || !cup.trusted) lines.push(line('stop', t.unknownWater));
  else if (room < cup.least_pass_ml) lines.push(line('stop', t.noRoom));
  else {
    lines.push(line('go', t.room(u.volume(room))));
    const n = passesOf(cup, order.ml);
    lines.push(n > 0 ? line('', t.inPasses(n, u.volume(cup.next_pass_ml))) : line('stop', t.noPass));
  }
  lines.push(...waterLimits(cup, true));
  lines.push(...feedLimits(bench, cup, order));
  return lines;
}

function heldLine(reason) {
  const found = foundWords(reason);
  return line('stop', t.holdsBack(`${reasonWords(reason).join('')}${found ? ` (${found})` : ''}`));
}

function waterLimits(cup, mayLift) {
  const holding = holdingWater(cup);
  if (holding.length === 0) return [line('go', t.nothingHolds)];
  return holding.flatMap((reason) => [
    heldLine(reason),
    ...(mayLift && liftable().includes(reason.code) ? [line('', t.canLift(nameOfLimit(reason.code)))] : []),
  ]);
}

/** What the label and the roots leave of the feed that is asked for. */
function feedLimits(bench, cup, order) {
  if (!(order.strength > 0)) return [line('', t.feedSum(u.percent(cup.fed)))];
  if (['struck', 'white'].includes(cup.stage)) return [line('stop', t.noFeedStage)];
  const lines = [...holdingFeed(cup).map(heldLine), line('', t.feedSum(u.percent(cup.fed)))];
  const ceiling = bench.setup?.feeding?.ceiling;
  if (ceiling !== undefined && order.strength > ceiling) lines.push(line('stop', t.overCeiling(u.number(ceiling, 2))));
  const mostMl = (Math.max(0, 1 - cup.fed) * cup.available_ml) / order.strength;
  if (order.ml > mostMl) lines.push(line('stop', t.overLabel(u.volume(mostMl))));
  return lines;
}

/** A can that has been given already is not held back; what it makes of the cup’s feed is told. */
function beforeWatered(cup, order) {
  const fed = cup.fed + ((order.strength ?? 0) * (order.ml ?? 0)) / cup.available_ml;
  return [
    line('', t.wateredNote),
    order.strength > 0 ? line(fed > 1 ? 'stop' : '', fed > 1 ? t.fedOver(u.percent(fed)) : t.fedThen(u.percent(fed))) : null,
    line('', t.wateredBack),
  ].filter(Boolean);
}

function beforeFilled(bench, order) {
  const tank = bench.setup?.tanks?.[order.tank];
  return [
    line('', t.filledNote),
    tank && order.ml > tank.size_ml ? line('stop', t.tooMuch(u.tank(tank.size_ml))) : null,
    tank
      ? line(
          '',
          t.tankNow(
            tank.feed ? `${tank.feed} × ${u.number(tank.strength, 2)}` : text.tanks.plain,
            u.tank(bench.status?.tank_ml?.[order.tank]),
          ),
        )
      : null,
    order.strength > 0 && !order.feed ? line('stop', t.plainHasNone) : null,
    order.feed && order.strength === 0 ? line('stop', t.feedNeedsStrength) : null,
    tank?.feed && !order.feed ? line('stop', t.feedGone(tank.feed)) : null,
    line('', text.cautions.feedItems[2]),
  ].filter(Boolean);
}

/** Cups that will get water as soon as nothing holds them. */
function beforeFreed(bench, order) {
  const freed = order.cup ? [bench.cups.get(order.cup)].filter(Boolean) : [...bench.cups.values()];
  const due = freed
    .filter((cup) => cup.depletion !== null && cup.depletion >= cup.due)
    .map((cup) => cup.cup)
    .sort(compareNames);
  return [line('', due.length > 0 ? t.thenWatered(due) : t.thenNone)];
}

function beforeClear(bench, order) {
  const ends = bench.alerts
    .filter((alert) => alertOf(alert.code)?.clear && (!order.cup || alert.cup === order.cup))
    .map((alert) => (alert.cup ? `${nameOfAlert(alert.code)} (${alert.cup})` : nameOfAlert(alert.code)));
  return [line('stop', t.clearNote), line('', ends.length > 0 ? t.clearEnds(ends) : t.clearNothing), ...beforeFreed(bench, order)];
}

function beforeAway(bench, cup) {
  const dry = dryBeforeMs(cup);
  return [line('', t.awayNote), dry !== null && dry > bench.now ? line('', t.awayDry(u.near(dry, bench.now))) : null].filter(Boolean);
}

function beforeFlush(cup, order) {
  const lines = [line('stop', t.flushNote)];
  if (cup && cup.depletion !== null && order.ml > 0) {
    const runs = order.ml - Math.max(0, cup.depletion) * cup.available_ml;
    lines.push(line('', runs > 0 ? t.flushRuns(u.volume(runs)) : t.flushNone));
  }
  return cup
    ? [...lines, ...waterLimits({ ...cup, reasons: cup.reasons.filter((reason) => !passes('flush', reason.code)) }, false)]
    : lines;
}

function beforeHold(bench, order) {
  const until = Date.parse(order.until);
  const affected = order.cup ? [bench.cups.get(order.cup)].filter(Boolean) : [...bench.cups.values()];
  if (order.feed_only || !Number.isFinite(until)) return [];
  const dry = affected
    .filter((cup) => dryBeforeMs(cup) !== null && dryBeforeMs(cup) < until)
    .map((cup) => cup.cup)
    .sort(compareNames);
  const blind = affected.filter((cup) => dryBeforeMs(cup) === null && cup.state !== 'away').length;
  return [
    dry.length > 0 ? line('stop', t.dryBefore(dry, dry.length)) : line('go', t.dryBeforeNone),
    blind > 0 ? line('', t.dryUnknown(blind)) : null,
    order.rescue ? null : line('', t.rescueNote),
  ].filter(Boolean);
}

function beforeRelease(bench) {
  const names = (bench.status?.holds ?? []).map((name) => (name === '*' ? t.field.wholeBench : name));
  return [line('', names.length > 0 ? t.holdsNow(names.join(', ')) : t.noHolds)];
}

/** The controller looks for itself whether the place is empty, and how much is too much. */
function beforePrime(cup) {
  return [
    cup.state === 'away' ? line('go', t.primeFree(cup.cup)) : line('stop', t.primeStands(cup.cup)),
    line('', t.primeMost),
    line('', t.primeNote),
  ];
}

/** Without its parts of the board a cup is not seen, or not watered. */
function beforeAdd(bench, order) {
  const { scale, valve, probe } = order;
  const lines = [line('', t.addNote)];
  if (!bench.setup?.free) return lines;
  if (scale && valve) lines.unshift(line('go', t.addPlace(scale, valve)));
  if (!valve) lines.unshift(line('stop', t.addNoValve));
  if (!scale && !probe) lines.unshift(line('stop', t.addNoScale));
  return lines;
}

const REPEATED_WITHIN_MS = 30 * 60e3;

/** Water that was told or ordered for the same cup just before: in a sentence, or null. What was refused or taken back is no repeat. */
export function repeated(now, orders, order) {
  if (!GIVES_FOR[order.kind] && order.kind !== 'watered') return null;
  const cups = order.cups ?? [order.cup];
  const forgotten = orders.filter((other) => other.kind === 'forget').map((other) => other.order);
  const same = orders.find(
    (other) =>
      other.kind === order.kind &&
      (other.cups ?? [other.cup]).some((cup) => cups.includes(cup)) &&
      now - Date.parse(other.issued) < REPEATED_WITHIN_MS &&
      other.receipts?.at(-1)?.outcome !== 'refused' &&
      !forgotten.includes(other.id),
  );
  return same ? t.repeated(u.volume(same.ml), u.span(now - Date.parse(same.issued)), t.kind[order.kind]) : null;
}

/** What all have in common is told once, and of each what stands against it. */
function beforeEach(kind, bench, order) {
  const { cups, ...one } = order;
  const told = cups.map((cup) => ({ cup, lines: before(kind, bench, { ...one, cup }) }));
  const shared = told[0].lines.filter((each) => told.every(({ lines }) => lines.some((other) => other.words === each.words)));
  const own = told.flatMap(({ cup, lines }) =>
    lines
      .filter((each) => each.tone === 'stop' && !shared.some((other) => other.words === each.words))
      .map((each) => line('stop', `${cup}: ${each.words}`)),
  );
  return [line('', t.allOrNone(cups)), ...own, ...shared];
}

/** What can be told of an order before it is sent: [{tone: 'go'|'stop'|'', words}]. */
export function before(kind, bench, order) {
  if (order.cups) return beforeEach(kind, bench, order);
  const cup = bench.cups.get(order.cup);
  const note = (words) => [line('', words)];
  const pumpless = cup && ['dose', 'flush', 'prime'].includes(kind) ? withoutPump(bench, cup) : null;
  if (pumpless) return [line('stop', pumpless)];
  switch (kind) {
    case 'dose':
      return cup ? beforeDose(bench, cup, order) : [];
    case 'hold':
      return beforeHold(bench, order);
    case 'release':
      return [...beforeRelease(bench), ...beforeFreed(bench, order)];
    case 'stage':
      return cup ? [line('', t.stageNow(text.stage[cup.stage])), ...(order.stage ? note(text.stageFeed[order.stage]) : [])] : [];
    case 'drained':
      return cup && leftOf(cup.depletion) !== null
        ? [line('', t.drainedNote(u.percent(leftOf(cup.depletion)))), line('', t.drainedBack)]
        : [];
    case 'watered':
      return cup ? beforeWatered(cup, order) : [];
    case 'away':
      return cup ? beforeAway(bench, cup) : [];
    case 'back':
      return cup ? [line('', t.backNote), line('', forecastWords(cup, bench.now))] : [];
    case 'cover':
      return [line('', t.coverNote), line('', t.coverStep)];
    case 'uncover':
      return [line('', t.uncoverNote), line('', t.coverStep)];
    case 'weather':
      return [line('', t.weatherNote), line('', t.weatherBack)];
    case 'flush':
      return beforeFlush(cup, order);
    case 'clear':
      return beforeClear(bench, order);
    case 'filled':
      return beforeFilled(bench, order);
    case 'prime':
      return cup ? beforePrime(cup) : [];
    case 'repot':
      return note(t.repotNote);
    case 'change':
      return [
        ...runsWithout(bench).map((sentence) => line('stop', sentence)),
        ...(order.path ? [line('', t.changeNow(order.path, order.from)), line('', t.changeNote)] : []),
      ];
    case 'retire':
      return note(t.retireNote);
    case 'add':
      return beforeAdd(bench, order);
    default:
      return [];
  }
}
