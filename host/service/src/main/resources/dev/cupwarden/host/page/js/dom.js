// Builds elements. Text always goes in as text, never as markup.

const SVG = 'http://www.w3.org/2000/svg';

function fill(el, props, children) {
  for (const [key, value] of Object.entries(props ?? {})) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on')) el.addEventListener(key.slice(2), value);
    else if (key === 'value' && 'value' in el) el.value = value;
    else el.setAttribute(key, value === true ? '' : value);
  }
  el.append(...children.flat(3).filter((child) => child !== null && child !== undefined && child !== false));
  return el;
}

/** An HTML element: h('p', {class: 'x', onclick: f}, 'text', child). */
export function h(tag, props, ...children) {
  return fill(document.createElement(tag), props, children);
}

/** An SVG element. */
export function s(tag, props, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

/** Sets an element's text only where it differs, so that nothing is laid out anew for nothing. */
export function setText(el, words) {
  if (el.textContent !== words) el.textContent = words;
}

/** Sets or removes an attribute only where it differs. */
export function setAttr(el, name, value) {
  if (value === null || value === undefined) el.removeAttribute(name);
  else if (el.getAttribute(name) !== String(value)) el.setAttribute(name, value);
}

/** A heading of a column of numbers. */
export function numberCol(word) {
  return h('th', { scope: 'col', class: 'n' }, word);
}

/** A table in a region of its own that scrolls; its columns' headings are words or elements, or null where it has none. */
export function regionTable(label, cols, ...parts) {
  const head =
    cols &&
    h(
      'thead',
      null,
      h(
        'tr',
        null,
        cols.map((col) => (typeof col === 'string' ? h('th', { scope: 'col' }, col) : col)),
      ),
    );
  return h('div', { class: 'table-wrap', tabindex: '0', role: 'region', 'aria-label': label }, h('table', null, head, parts));
}

/** A button for each value, pressed where `isOn` says so; `show` says it anew after something else has changed that. */
export function toggles(values, word, isOn, press) {
  const buttons = values.map((value) =>
    h(
      'button',
      {
        type: 'button',
        'aria-pressed': String(isOn(value)),
        onclick: () => {
          press(value);
          show();
        },
      },
      word(value),
    ),
  );
  function show() {
    buttons.forEach((button, i) => setAttr(button, 'aria-pressed', String(isOn(values[i]))));
  }
  return { buttons, show };
}

let lastId = 0;

/** An id no other element of this page has. */
export function freshId(stem) {
  lastId += 1;
  return `${stem}-${lastId}`;
}

/** An input with its label above it, and a word of help below. */
export function field(label, input, hint) {
  const id = freshId('field');
  input.id = id;
  const hintId = hint ? freshId('hint') : null;
  if (hintId) input.setAttribute('aria-describedby', hintId);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, h('strong', null, label)),
    input,
    hint ? h('p', { class: 'quiet', id: hintId }, hint) : null,
  );
}

const said = () => document.getElementById('said');
let pending = [];

/** Tells a screen reader, politely; several sentences of one moment are said together. */
export function say(sentence) {
  if (pending.length === 0) {
    setTimeout(() => {
      said().textContent = pending.join(' ');
      pending = [];
    }, 150);
  }
  if (!pending.includes(sentence) && pending.length < 6) pending.push(sentence);
}
