// The reader's choice of units, clock and dates, kept on this device.

import { freshId, h, say, setText } from './dom.js';
import { text } from './text.js';
import * as u from './units.js';

const CHOICES = {
  volume: ['ml', 'floz'],
  mass: ['g', 'oz'],
  temp: ['c', 'f'],
  clock: ['locale', '24', '12'],
  dates: ['locale', 'dmy', 'mdy', 'iso'],
  zone: ['device', 'bench'],
};

export function unitsView() {
  const t = text.settings;
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const example = h('p', { class: 'quiet', role: 'status' });
  const tell = () =>
    setText(example, t.example(u.zone(), u.dayTime(Date.now()), u.date(Date.now()), u.volume(30), u.mass(312.4), u.temp(18.5)));
  tell();
  const sets = Object.entries(CHOICES).map(([what, options]) => {
    const name = freshId(what);
    return h(
      'fieldset',
      { class: 'field' },
      h('legend', null, t[what]),
      options.map((option) =>
        h(
          'label',
          { class: 'check' },
          h('input', {
            type: 'radio',
            name,
            value: option,
            checked: u.choice()[what] === option,
            onchange: () => {
              u.choose({ [what]: option });
              say(t.saved);
              tell();
            },
          }),
          t.option[option],
        ),
      ),
    );
  });
  return {
    el: h('section', { class: 'view' }, heading, h('div', { class: 'panel' }, h('div', { class: 'choices' }, sets), example)),
    title: t.title,
    heading,
  };
}
