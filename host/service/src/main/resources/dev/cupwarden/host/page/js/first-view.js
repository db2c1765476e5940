// An empty store: what to do next.

import { h, setText } from './dom.js';
import { text } from './text.js';

/** The same as in the README. */
const FIRST_BENCH = `bench: back-room
mixes:
  coir-perlite:
    retention: {saturated: 0.82, residual: 0.12, alpha: 0.22, n: 1.55}
    unavailable: 0.10
    least_air: 0.10
    dry_density: 0.10
vessels:
  tall: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}
feeds:
  leafy:
    analysis: {N: 20, P2O5: 10, K2O: 20}
    label: {amount: 1 tsp, per: 1 US gal, every: 14 d}
    spoon: 5.8 g
    ec: 1.25
tanks:
  plain: {size: 12 L}
  feed: {size: 4 L, feed: leafy, strength: 0.5}
cups:
  A1: {vessel: tall, mix: coir-perlite, plant: blackcurrant, stage: struck, cutting: 14 g}
  A2: {vessel: tall, mix: coir-perlite, plant: mulberry, stage: toughened, cutting: 12 g}
`;

export function firstView() {
  const t = text.first;
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const file = h('pre', { tabindex: '0', 'aria-label': t.file }, FIRST_BENCH);
  const done = h('span', { class: 'quiet', role: 'status' });
  const copy = h(
    'button',
    {
      type: 'button',
      onclick: async () => {
        try {
          await navigator.clipboard.writeText(FIRST_BENCH);
          setText(done, t.copied);
        } catch {
          getSelection().selectAllChildren(file); // No clipboard without the browser's leave: it is one key away.
          file.focus();
          setText(done, t.selected);
        }
      },
    },
    t.copy,
  );
  return {
    el: h(
      'section',
      { class: 'view' },
      heading,
      h('p', null, t.lead),
      h(
        'div',
        { class: 'panel' },
        h(
          'ol',
          { class: 'steps' },
          t.steps.map((step) => h('li', null, step)),
        ),
      ),
      h('div', { class: 'panel' }, h('h2', null, t.file), file, h('p', { class: 'row' }, copy, done)),
      h(
        'div',
        { class: 'panel' },
        h('h2', null, text.cautions.short),
        h('p', null, text.cautions.waterItems[0], ' ', text.cautions.feedItems[0]),
        h('p', null, h('a', { href: '#/cautions' }, text.cautions.title)),
      ),
      h('p', { class: 'quiet', role: 'status' }, t.waiting),
    ),
    title: t.title,
    heading,
    wantsBench: true,
  };
}
