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

let lastId = 0;

/** An id no other element of this page has. */
export function freshId(stem) {
  lastId += 1;
  return `${stem}-${lastId}`;
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
