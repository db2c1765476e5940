// The usual cautions about water, mains, heat and fertiliser salts.

import { h } from './dom.js';
import { text } from './text.js';

export function cautionsView() {
  const c = text.cautions;
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, c.title);
  const part = (title, items) =>
    h(
      'section',
      { class: 'panel' },
      h('h2', null, title),
      h(
        'ul',
        { class: 'plain' },
        items.map((item) => h('li', null, item)),
      ),
    );
  return {
    el: h(
      'section',
      { class: 'view' },
      heading,
      h('p', null, c.lead),
      part(c.water, c.waterItems),
      part(c.heat, c.heatItems),
      part(c.feed, c.feedItems),
    ),
    title: c.title,
    heading,
  };
}
