// What a person may ask of a bench: the fields of each order, and what can be said of it beforehand.

import { compareNames, nameOfLimit } from './reading.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.doing;

/** Fields in the order in which they are asked. A "?" marks one that may be left out. */
export const KINDS = {
  dose: { group: 'water', fields: ['cup', 'ml', 'strength', 'lift?'] },
  flush: { group: 'water', fields: ['cup', 'ml'] },
  watered: { group: 'see', fields: ['cup', 'ml', 'strength'] },
  drained: { group: 'see', fields: ['cup'] },
  stage: { group: 'see', fields: ['cup', 'stage'] },
  hold: { group: 'stop', fields: ['cup?', 'until', 'feed_only?', 'rescue?'] },
  release: { group: 'stop', fields: ['cup?'] },
  clear: { group: 'stop', fields: ['cup?'] },
  away: { group: 'see', fields: ['cup'] },
  back: { group: 'see', fields: ['cup'] },
  filled: { group: 'bench', fields: ['tank', 'ml', 'feed?', 'strength'] },
  repot: { group: 'bench', fields: ['cup', 'vessel', 'mix'] },
  add: { group: 'bench', fields: ['newcup', 'plant', 'vessel', 'mix', 'struck', 'stage', 'cutting'] },
  retire: { group: 'bench', fields: ['cup', 'because', 'confirm'] },
};
export const GROUPS = ['water', 'stop', 'see', 'bench'];
export const LIFTABLE = ['window', 'cold', 'no-dry-back'];

/** The order that takes this one back, where there is one. */
export const BACK_BY = { hold: 'release', away: 'back', back: 'away', stage: 'stage', repot: 'repot', retire: 'add', release: 'hold', add: 'retire' };

const line = (tone, words) => ({ tone, words });
const feedLimits = ['stage', 'dry-roots', 'ledger', 'salt', 'dark-season'];

/** mL that are missing up to the refill line; null where the water is not known. */
export function roomOf(cup) {
  if (!cup || cup.depletion === null) return null;
  return Math.max(0, (cup.depletion - cup.refill) * cup.available_ml);
}

function beforeDose(bench, cup, order) {
  const lines = [];
  const room = roomOf(cup);
  const pass = bench.setup?.watering?.pass_ml ?? 30;
  if (room === null || !cup.trusted) lines.push(line('stop', t.unknownWater));
  else if (room < 5) lines.push(line('stop', t.noRoom));
  else {
    lines.push(line('go', t.room(u.volume(room))));
    const ml = Math.min(room, order.ml > 0 ? order.ml : room);
    lines.push(line('', t.inPasses(Math.ceil(ml / pass), u.volume(pass))));
  }
  const holding = cup.reasons.filter((reason) => !feedLimits.includes(reason.code));
  for (const reason of holding) {
    lines.push(line('stop', t.holdsBack(`${nameOfLimit(reason.code)}. ${reason.sentence}`)));
    if (LIFTABLE.includes(reason.code)) lines.push(line('', t.canLift(nameOfLimit(reason.code))));
  }
  if (holding.length === 0) lines.push(line('go', t.nothingHolds));
  if (order.strength > 0 && ['struck', 'white'].includes(cup.stage)) lines.push(line('stop', t.noFeedStage));
  else lines.push(line('', t.feedSum(u.percent(cup.fed))));
  return lines;
}

function beforeHold(bench, order) {
  const until = Date.parse(order.until);
  const affected = order.cup ? [bench.cups.get(order.cup)].filter(Boolean) : [...bench.cups.values()];
  if (order.feed_only || !Number.isFinite(until)) return [];
  const dry = affected.filter((cup) => cup.dry_at && Date.parse(cup.dry_at) < until).map((cup) => cup.cup).sort(compareNames);
  const blind = affected.filter((cup) => !cup.dry_at && cup.state !== 'away').length;
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

/** What can be told of an order before it is sent: [{tone: 'go'|'stop'|'', words}]. */
export function before(kind, bench, order) {
  const cup = bench.cups.get(order.cup);
  const note = (words) => [line('', words)];
  switch (kind) {
    case 'dose': return cup ? beforeDose(bench, cup, order) : [];
    case 'hold': return beforeHold(bench, order);
    case 'release': return beforeRelease(bench);
    case 'stage': return cup ? [line('', t.stageNow(text.stage[cup.stage])), ...(order.stage ? note(text.stageFeed[order.stage]) : [])] : [];
    case 'drained': return cup && cup.depletion !== null ? note(t.drainedNote(u.percent(Math.max(0, 1 - cup.depletion)))) : [];
    case 'watered': return note(t.wateredNote);
    case 'away': return note(t.awayNote);
    case 'back': return note(t.backNote);
    case 'flush': return [line('stop', t.flushNote)];
    case 'clear': return [line('stop', t.clearNote)];
    case 'filled': return [line('', t.filledNote), line('', text.cautions.feedItems[2])];
    case 'repot': return note(t.repotNote);
    case 'retire': return note(t.retireNote);
    case 'add': return note(t.addNote);
    default: return [];
  }
}
