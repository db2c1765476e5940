// Reasons that hold a cup back, as a list.

import { h } from './dom.js';
import { foundWords, reasonWords } from './reasons.js';

/** One list item a reason. */
export function reasonItems(reasons) {
  return reasons.map((reason) => {
    const found = foundWords(reason);
    const [name, rest] = reasonWords(reason);
    return h('li', { class: 'stop' }, h('strong', null, name), rest, found ? h('span', { class: 'quiet' }, ` (${found})`) : null);
  });
}
