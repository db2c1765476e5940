// Several cups of a bench, chosen at one stroke: all, those in leaf, a row, a plant, a stage.

import { h } from './dom.js';
import { compareNames } from './reading.js';
import { text } from './text.js';

const t = text.choice;
/** Stages that are drawn with leaves. */
const LEAFY = ['toughened', 'circling'];

/** The row that a cup stands in: its name without the number at its end; none where it is a number alone. */
const rowOf = (name) => name.replace(/[-_. ]*\d+$/, '');

/** A name in the row of that cup that no cup of the bench has yet: after A4 comes A5. */
export function nextInRow(bench, name) {
  const stem = name.replace(/\d+$/, '');
  const taken = [...bench.cups.keys()].filter((cup) => cup.startsWith(stem) && /^\d+$/.test(cup.slice(stem.length)));
  return `${stem}${Math.max(0, ...taken.map((cup) => Number(cup.slice(stem.length)))) + 1}`;
}

const GROUPINGS = {
  row: { of: (cup) => rowOf(cup.cup), words: (row) => t.row(row) },
  plant: { of: (cup) => cup.plant, words: (plant) => plant },
  stage: { of: (cup) => cup.stage, words: (stage) => text.stage[stage] ?? stage },
};

/** {row|plant|stage: [{words, names}]} of a bench; a grouping that would be all of them is left out. */
export function groupsOf(bench) {
  const groups = {};
  for (const [by, { of, words }] of Object.entries(GROUPINGS)) {
    const members = new Map();
    for (const cup of bench.cups.values()) if (of(cup)) members.set(of(cup), [...(members.get(of(cup)) ?? []), cup.cup]);
    const found = [...members].map(([key, names]) => ({ words: words(key), names: names.sort(compareNames) }));
    if (found.some(({ names }) => names.length < bench.cups.size)) groups[by] = found.sort((a, b) => compareNames(a.words, b.words));
  }
  return groups;
}

export const allOf = (bench) => [...bench.cups.keys()].sort(compareNames);
export const leafyOf = (bench) => allOf(bench).filter((name) => LEAFY.includes(bench.cups.get(name).stage));

/** Buttons and a list that choose cups; `choose(names)` hears which. */
export function chooser(bench, choose) {
  const leafy = leafyOf(bench);
  const groups = groupsOf(bench);
  const found = [];
  const list = h(
    'select',
    {
      'aria-label': t.by,
      onchange: () => {
        if (list.value) choose(found[Number(list.value)].names);
        list.value = '';
      },
    },
    h('option', { value: '' }, t.by),
    Object.entries(groups).map(([by, members]) =>
      h(
        'optgroup',
        { label: t.group[by] },
        members.map((group) => h('option', { value: String(found.push(group) - 1) }, t.of(group.words, group.names.length))),
      ),
    ),
  );
  const button = (words, names) => h('button', { type: 'button', onclick: () => choose(names) }, words);
  return h(
    'div',
    { class: 'row chooser', role: 'group', 'aria-label': t.label },
    button(t.of(t.all, bench.cups.size), allOf(bench)),
    leafy.length > 0 && leafy.length < bench.cups.size ? button(t.of(t.leafy, leafy.length), leafy) : null,
    Object.keys(groups).length > 0 ? list : null,
    button(t.none, []),
  );
}
