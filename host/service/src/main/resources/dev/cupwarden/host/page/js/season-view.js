// What became of the cuttings, by plant, mix and vessel, with intervals that admit small numbers.

import * as api from './api.js';
import { h, setAttr, setText } from './dom.js';
import { compareNames } from './reading.js';
import { store } from './store.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.season;
const GROUPINGS = ['plant', 'mix', 'vessel'];
const Z_95 = 1.959964; // two-sided 95 % of the normal distribution

/** Wilson's score interval (E. B. Wilson 1927) for n of `of`: [low, high], both 0 to 1. */
export function wilson(n, of) {
  if (of === 0) return [0, 1];
  const p = n / of;
  const z2 = Z_95 ** 2;
  const centre = (p + z2 / (2 * of)) / (1 + z2 / of);
  const half = (Z_95 * Math.sqrt((p * (1 - p)) / of + z2 / (4 * of * of))) / (1 + z2 / of);
  return [Math.max(0, centre - half), Math.min(1, centre + half)];
}

/** Cups taken out for good: their name and why, from the orders that were taken. */
function retiredOf(orders) {
  const retired = new Map();
  for (const order of orders) {
    const done = (order.receipts ?? []).some((receipt) => receipt.outcome === 'done' || receipt.outcome === 'taken');
    if (order.kind === 'retire' && done && !retired.has(order.cup)) retired.set(order.cup, order.because);
  }
  return retired;
}

function fateOf(cup, retired) {
  const because = retired.get(cup.cup);
  if (because) return because;
  if (cup.stage === 'toughened' || cup.stage === 'circling') return 'growing';
  return 'unknown';
}

export function seasonView(benchName) {
  const bench = store.bench(benchName);
  let by = 'plant';
  let retired = new Map();
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const body = h('tbody');
  const foot = h('tfoot');
  const problem = h('p', { class: 'error', role: 'status' });
  const what = h('th', { scope: 'col' });
  const cols = ['cups', 'rooted', 'growing', 'unknown', 'rotted', 'dried', 'other'];
  const buttons = GROUPINGS.map((each) => h('button', { type: 'button', 'aria-pressed': String(each === by), onclick: () => {
    by = each;
    buttons.forEach((button, i) => setAttr(button, 'aria-pressed', String(GROUPINGS[i] === by)));
    show();
  } }, t.group[each]));
  const el = h('section', { class: 'view' }, heading, h('p', null, t.lead), problem,
    h('div', { class: 'row tools', role: 'group', 'aria-label': t.by }, buttons, h('button', { type: 'button', onclick: () => print() }, t.print)),
    h('section', { class: 'panel' }, h('div', { class: 'table-wrap', tabindex: '0', role: 'region', 'aria-label': t.title },
      h('table', null, h('thead', null, h('tr', null, what, cols.map((col) => h('th', { scope: 'col', class: 'n' }, t.col[col])), h('th', { scope: 'col' }, t.col.share))), body, foot)),
    h('p', { class: 'quiet' }, t.interval)));

  function row(name, fates, cell) {
    const count = (fate) => fates.filter((each) => each === fate).length;
    const rooted = count('rooted') + count('growing');
    const decided = rooted + count('rotted') + count('dried') + count('other');
    const [low, high] = wilson(rooted, decided);
    return h('tr', null, h(cell, { scope: 'row' }, name), h('td', { class: 'n' }, String(fates.length)), cols.slice(1).map((col) => h('td', { class: 'n' }, String(count(col)))),
      h('td', null, decided === 0 ? t.allWaiting : t.rooted(rooted, decided, u.percent(low), u.percent(high))));
  }

  function show() {
    setText(what, t.group[by]);
    const groups = new Map();
    for (const cup of bench.cups.values()) {
      const key = by === 'plant' ? cup.plant : bench.setup?.cups?.[cup.cup]?.[by] ?? t.unknownGroup;
      groups.set(key, [...(groups.get(key) ?? []), fateOf(cup, retired)]);
    }
    const names = [...groups.keys()].sort(compareNames);
    body.replaceChildren(...(names.length > 0 ? names.map((name) => row(name, groups.get(name), 'th')) : [h('tr', null, h('td', { colspan: cols.length + 2 }, t.none))]));
    foot.replaceChildren(...(names.length > 1 ? [row(t.total, [...groups.values()].flat(), 'th')] : []));
  }

  async function load() {
    try {
      retired = retiredOf(await api.orders(benchName));
      setText(problem, '');
    } catch (error) {
      setText(problem, t.failed(error.message));
    }
    show();
  }
  show();
  load();
  return { el, title: t.title, heading, onChange: (changes) => (changes.all || changes.cups.size > 0) && show() };
}
