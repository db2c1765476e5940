// The bench file as text: read with its remarks, edited, tried, and sent key by key as orders.

import * as api from './api.js';
import { freshId, h, say, setText } from './dom.js';
import { store } from './store.js';
import { text } from './text.js';

const t = text.file;
const shown = (value) => (value === null ? t.missing : typeof value === 'string' ? value : JSON.stringify(value));

export function fileView(benchName) {
  const bench = () => store.bench(benchName);
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.title);
  const toDo = h('a', { class: 'button', href: `#/${encodeURIComponent(benchName)}/do` }, `← ${text.doing.title}`);
  const top = [h('p', { class: 'cup-top' }, toDo), heading];
  if (!bench().setup?.file) {
    return { el: h('section', { class: 'view' }, top, h('p', null, t.none)), title: t.title, heading, wantsBench: true };
  }

  let read = bench().setup.file; // the text that the edit began from
  let sent = []; // changes that went, to be undone
  const lines = freshId('lines');
  const area = h('textarea', {
    class: 'file',
    spellcheck: 'false',
    autocomplete: 'off',
    autocapitalize: 'off',
    wrap: 'off',
    rows: '24',
    'aria-label': t.label,
    'aria-describedby': lines,
    oninput: () => {
      found.replaceChildren();
      tellPlace();
    },
    onkeyup: () => tellPlace(),
    onclick: () => tellPlace(),
  });
  area.value = read;
  const place = h('p', { class: 'quiet', id: lines });
  const newer = h('p', { class: 'stop', role: 'status' });
  const found = h('div', { 'aria-live': 'polite' });
  const error = h('p', { class: 'error', role: 'alert' });
  const refusal = store.mayAct() ? null : h('p', { class: 'refusal', id: freshId('refusal') }, text.session.lookOnly(store.session.name));
  const tryIt = h(
    'button',
    { type: 'button', class: 'main', disabled: refusal !== null, 'aria-describedby': refusal?.id, onclick: look },
    t.look,
  );
  const again = h('button', { type: 'button', onclick: reset }, t.again);
  const undo = h('button', { type: 'button', hidden: true, onclick: takeBack });

  function tellPlace() {
    const before = area.value.slice(0, area.selectionStart).split('\n');
    setText(place, t.place(before.length, before.at(-1).length + 1, area.value.split('\n').length));
  }

  function reset() {
    read = bench().setup.file;
    area.value = read;
    setText(newer, '');
    setText(error, '');
    found.replaceChildren();
    tellPlace();
  }

  function goTo(line) {
    const at = area.value.split('\n', line - 1).join('\n').length + (line > 1 ? 1 : 0);
    const end = area.value.indexOf('\n', at);
    area.focus();
    area.setSelectionRange(at, end < 0 ? area.value.length : end);
    area.scrollTop = (line - 4) * (area.scrollHeight / area.value.split('\n').length);
    tellPlace();
  }

  async function look() {
    setText(error, '');
    try {
      tell(await api.tryFile(benchName, area.value));
    } catch (problem) {
      setText(error, t.failed(problem.message));
    }
  }

  function tell(answer) {
    if (answer.error) {
      const { line, sentence } = answer.error;
      found.replaceChildren(
        h('p', { class: 'error' }, line ? t.wrongAt(line, sentence) : sentence),
        ...(line ? [h('p', null, h('button', { type: 'button', onclick: () => goTo(line) }, t.goTo(line)))] : []),
      );
      return;
    }
    const { changes, refused, other_text: otherText } = answer;
    const send = h('button', { type: 'button', class: 'main', onclick: () => sendAll(changes, send) }, t.send(changes.length));
    found.replaceChildren(
      h('h2', null, t.changes),
      h(
        'ul',
        { class: 'says keys' },
        changes.map((change) => h('li', { class: 'go' }, text.doing.changed(change.path, shown(change.from), shown(change.to)))),
        refused.map((why) => h('li', { class: 'stop' }, why)),
        changes.length + refused.length === 0 ? h('li', null, t.nothing) : null,
        otherText ? h('li', { class: 'stop' }, t.otherText) : null,
      ),
      ...(changes.length > 0 ? [h('p', { class: 'quiet' }, text.doing.changeNote), h('p', null, send)] : []),
    );
  }

  /** One after the other: a later one may need an earlier one. */
  async function order(changes, went) {
    for (const change of changes) {
      await api.order(benchName, { kind: 'change', ...change });
      went(change);
    }
  }

  /** What went before another failed can be taken back, too. */
  function offerUndo() {
    undo.hidden = sent.length === 0;
    setText(undo, t.undo(sent.length));
  }

  async function sendAll(changes, button) {
    button.disabled = true;
    sent = [];
    try {
      await order(changes, (change) => sent.push(change));
      offerUndo();
      found.replaceChildren(
        h('p', null, t.sent(sent.length), ' ', h('a', { href: `#/${encodeURIComponent(benchName)}/do` }, text.doing.receipts)),
      );
      say(t.sent(sent.length));
      undo.focus();
    } catch (problem) {
      button.disabled = sent.length > 0;
      offerUndo();
      setText(error, t.failed(problem.message));
    }
  }

  async function takeBack() {
    undo.disabled = true;
    try {
      await order(sent.map(({ path, from, to }) => ({ path, from: to, to: from })).reverse(), () => {});
      undo.hidden = true;
      found.replaceChildren(h('p', null, t.undone(sent.length)));
      sent = [];
    } catch (problem) {
      setText(error, t.failed(problem.message));
    } finally {
      undo.disabled = false;
    }
  }

  tellPlace();
  const el = h(
    'section',
    { class: 'view' },
    top,
    h('p', null, t.lead),
    refusal,
    newer,
    h('section', { class: 'panel' }, area, place, h('p', { class: 'row' }, tryIt, again, undo), error, found),
  );
  return {
    el,
    title: t.title,
    heading,
    onChange(changes) {
      if (!changes.all && !changes.benches.has(benchName)) return;
      const now = bench()?.setup?.file;
      if (!now || now === read) return;
      if (area.value === read || sent.length > 0) {
        read = now;
        area.value = now;
        tellPlace();
      } else setText(newer, t.newer);
    },
  };
}
