// What became of the cuttings, by plant, mix and vessel, with intervals that admit small numbers.

import * as api from './api.js';
import { h, numberCol, regionTable, setText, toggles } from './dom.js';
import { compareNames } from './reading.js';
import { besideBand, fateOf, foretold, wilson } from './season.js';
import { store } from './store.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.season;
const GROUPINGS = ['plant', 'mix', 'vessel'];

/** Where the bench has not told how it is set up, the season knows the cups that stand on it, and no more. */
const standingOf = (bench) =>
  [...bench.cups.values()].map((cup) => ({
    ...bench.setup?.cups?.[cup.cup],
    cup: cup.cup,
    plant: cup.plant,
    stage: cup.stage,
    gone: null,
  }));

export function seasonView(benchName) {
  const bench = store.bench(benchName);
  let by = 'plant';
  let cuttings = standingOf(bench);
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const body = h('tbody');
  const foot = h('tfoot');
  const problem = h('p', { class: 'error', role: 'status' });
  const what = h('th', { scope: 'col' });
  const cols = ['cups', 'rooted', 'growing', 'unknown', 'rotted', 'dried', 'other'];
  const groups = toggles(
    GROUPINGS,
    (each) => t.group[each],
    (each) => each === by,
    (each) => {
      by = each;
      show();
    },
  );
  const goneBody = h('tbody');
  const gone = h('section', { class: 'panel', hidden: true }, h('h2', null, t.gone), regionTable(t.gone, t.goneCols, goneBody));
  const shareOf = h('th', { scope: 'col' });
  const shareBody = h('tbody');
  const shareFoot = h('tfoot');
  const seenBody = h('tbody');
  const roots = h(
    'section',
    { class: 'panel foretold', hidden: true },
    h('h2', null, t.foretold.title),
    h('p', { class: 'quiet' }, t.foretold.lead),
    regionTable(
      t.foretold.title,
      [shareOf, t.foretold.share, ...['within', 'before', 'after'].map((side) => numberCol(t.foretold.side[side]))],
      shareBody,
      shareFoot,
    ),
    regionTable(t.foretold.each, t.foretold.cols, seenBody),
  );
  const el = h(
    'section',
    { class: 'view' },
    heading,
    h('p', null, t.lead),
    problem,
    h(
      'div',
      { class: 'row tools', role: 'group', 'aria-label': t.by },
      groups.buttons,
      h('button', { type: 'button', onclick: () => print() }, t.print),
    ),
    h(
      'section',
      { class: 'panel' },
      regionTable(t.title, [what, t.col.share, ...cols.map((col) => numberCol(t.col[col]))], body, foot),
      h('p', { class: 'quiet' }, t.interval),
    ),
    roots,
    gone,
  );

  function row(name, fates, cell) {
    const count = (fate) => fates.filter((each) => each === fate).length;
    const rooted = count('rooted') + count('growing');
    const decided = rooted + count('rotted') + count('dried') + count('other');
    const [low, high] = wilson(rooted, decided);
    return h(
      'tr',
      null,
      h(cell, { scope: 'row' }, name),
      h('td', null, decided === 0 ? t.allWaiting : t.rooted(rooted, decided, u.percent(low), u.percent(high))),
      h('td', { class: 'n' }, String(fates.length)),
      cols.slice(1).map((col) => h('td', { class: 'n' }, String(count(col)))),
    );
  }

  function show() {
    setText(what, t.group[by]);
    const groups = new Map();
    for (const cutting of cuttings) {
      const key = cutting[by] || t.unknownGroup;
      groups.set(key, [...(groups.get(key) ?? []), fateOf(cutting)]);
    }
    const names = [...groups.keys()].sort(compareNames);
    body.replaceChildren(
      ...(names.length > 0
        ? names.map((name) => row(name, groups.get(name), 'th'))
        : [h('tr', null, h('td', { colspan: cols.length + 2 }, t.none))]),
    );
    showForetold();
    showGone();
    foot.replaceChildren(...(names.length > 1 ? [row(t.total, [...groups.values()].flat(), 'th')] : []));
  }

  function shareRow(name, all) {
    const count = (side) => all.filter((each) => besideBand(each) === side).length;
    const [low, high] = wilson(count('within'), all.length);
    return h(
      'tr',
      null,
      h('th', { scope: 'row' }, name),
      h('td', null, t.rooted(count('within'), all.length, u.percent(low), u.percent(high))),
      ['within', 'before', 'after'].map((side) => h('td', { class: 'n' }, String(count(side)))),
    );
  }

  /** How right the days of roots were that were foretold, in whole and of each cup. */
  function showForetold() {
    const all = foretold(cuttings);
    const day = (told) => u.date(Date.parse(`${told}T12:00`));
    roots.hidden = all.length === 0;
    setText(shareOf, t.group[by]);
    const groups = new Map();
    for (const each of all) {
      const key = each.cutting[by] || t.unknownGroup;
      groups.set(key, [...(groups.get(key) ?? []), each]);
    }
    const names = [...groups.keys()].sort(compareNames);
    shareBody.replaceChildren(...names.map((name) => shareRow(name, groups.get(name))));
    shareFoot.replaceChildren(...(names.length > 1 ? [shareRow(t.total, all)] : []));
    seenBody.replaceChildren(
      ...all.map((each) =>
        h(
          'tr',
          null,
          h('th', { scope: 'row' }, each.cutting.cup),
          h('td', null, each.cutting.plant),
          h('td', null, t.foretold.roots[each.roots]),
          h('td', null, t.foretold.band(day(each.likely), day(each.from), day(each.to))),
          h('td', null, day(each.day)),
          h('td', null, t.foretold.side[besideBand(each)]),
        ),
      ),
    );
  }

  /** The way back for one that was taken out by mistake, as long as no other stands in its name. */
  function putBack(cup) {
    if (store.bench(benchName)?.cups.has(cup)) return null;
    return [' ', h('a', { href: `#/${encodeURIComponent(benchName)}/do/add/${encodeURIComponent(cup)}` }, text.doing.undo.retire)];
  }

  /** Those that were taken out, newest first. */
  function showGone() {
    const left = cuttings.filter((cutting) => cutting.gone).sort((a, b) => Date.parse(b.gone) - Date.parse(a.gone));
    gone.hidden = left.length === 0;
    goneBody.replaceChildren(
      ...left.map((cutting) =>
        h(
          'tr',
          null,
          h('th', { scope: 'row' }, cutting.cup, putBack(cutting.cup)),
          h('td', null, cutting.plant),
          h('td', null, [cutting.vessel, cutting.mix].filter(Boolean).join(', ')),
          h('td', null, cutting.struck ? u.date(Date.parse(`${cutting.struck}T12:00`)) : '–'),
          h('td', null, u.date(Date.parse(cutting.gone))),
          h('td', null, text.doing.because[cutting.because] ?? t.col.other),
        ),
      ),
    );
  }

  async function load() {
    try {
      const told = await api.cuttings(benchName);
      cuttings = told.length > 0 ? told : standingOf(bench);
      setText(problem, '');
    } catch (error) {
      setText(problem, t.failed(error.message));
    }
    show();
  }
  show();
  load();
  return { el, title: t.title, heading, onChange: (changes) => changes.all && load() };
}
