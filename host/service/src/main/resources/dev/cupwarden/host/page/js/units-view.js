// The reader's choice of units and clock, kept on this device.

import { freshId, h, say } from './dom.js';
import { text } from './text.js';
import * as u from './units.js';

const CHOICES = { volume: ['ml', 'floz'], mass: ['g', 'oz'], temp: ['c', 'f'], clock: ['locale', '24', '12'] };

export function unitsView() {
  const t = text.settings;
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const sets = Object.entries(CHOICES).map(([what, options]) => {
    const name = freshId(what);
    return h('fieldset', { class: 'field' }, h('legend', null, t[what]), options.map((option) =>
      h('label', { class: 'check' }, h('input', {
        type: 'radio', name, value: option, checked: u.choice()[what] === option,
        onchange: () => {
          u.choose({ [what]: option });
          say(t.saved);
        },
      }), t.option[option])));
  });
  return {
    el: h('section', { class: 'view' }, heading, h('div', { class: 'panel' }, sets, h('p', { class: 'quiet' }, t.zone(Intl.DateTimeFormat().resolvedOptions().timeZone)))),
    title: t.title,
    heading,
  };
}
