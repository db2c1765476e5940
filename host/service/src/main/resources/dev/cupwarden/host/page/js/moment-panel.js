// A moment of a cup's past: what it weighed, how full it was, and why it was or was not watered then.

import * as api from './api.js';
import { freshId, h, setAttr, setText } from './dom.js';
import { depletionAt, leftOf } from './reading.js';
import { reasonItems } from './reasons-list.js';
import { store } from './store.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.cup;
const SETTLE_MS = 200;
const STEP_S = 900;
/** The controller tells its reasons anew at least every three hours; after that, and a little, it was silent. */
const SILENT_AFTER_MS = 3.5 * 3600e3;

/**
 * `curve` answers data() {at, mass_g}, doses() and mark(at). Pointing at the curve, typing a time, and the two
 * buttons that go from one change of reasons to the next all end in tell().
 */
export function momentPanel(benchName, cupName, curve) {
  const inputId = freshId('moment');
  const input = h('input', { type: 'datetime-local', id: inputId, onchange: () => tell(u.msFromTyped(input.value) / 1000, true) });
  const words = h('p', { class: 'number' }, t.momentHint);
  const why = h('ul', { class: 'says' });
  const state = h('p', { class: 'quiet' });
  const before = h('button', { type: 'button', disabled: true, onclick: () => go(shown.since - STEP_S / 10) }, `‹ ${t.momentBefore}`);
  const after = h('button', { type: 'button', disabled: true, onclick: () => go(shown.until) }, `${t.momentAfter} ›`);
  const answer = h('div', { role: 'status' }, words, why, state);
  const el = h(
    'section',
    { class: 'panel moment' },
    h('h2', null, t.moment),
    h('p', { class: 'row' }, h('label', { for: inputId }, t.momentLabel), input, before, after),
    answer,
  );
  let timer = null;
  let asked = 0;
  let shown = null;

  const go = (at) => tell(at, true);

  function bandOf(cup, depletion) {
    if (depletion < cup.wet) return 'wet';
    if (depletion < cup.refill) return 'full';
    if (depletion < cup.due) return 'steady';
    return depletion < cup.dry ? 'due' : 'dry';
  }

  function weightWords(cup, at) {
    const { at: times, mass_g: masses } = curve.data();
    if (times.length === 0) return t.momentNoWeight(u.dayTime(at * 1000));
    let nearest = 0;
    for (let i = 1; i < times.length; i += 1) if (Math.abs(times[i] - at) < Math.abs(times[nearest] - at)) nearest = i;
    if (masses[nearest] === null || Math.abs(times[nearest] - at) > 6 * 3600) return t.momentNoWeight(u.dayTime(at * 1000));
    const depletion = depletionAt(cup, masses[nearest]);
    const dose = curve
      .doses()
      .filter((event) => Date.parse(event.at) / 1000 <= at)
      .at(-1);
    return [
      t.momentIs(u.dayTime(at * 1000), u.mass(masses[nearest]), u.percent(leftOf(depletion))),
      t.momentBand[bandOf(cup, depletion)],
      dose ? t.momentDose(u.span(at * 1000 - Date.parse(dose.at))) : t.momentNone,
    ].join(' ');
  }

  function tell(at, settled) {
    const cup = store.bench(benchName)?.cups.get(cupName);
    if (!cup || !Number.isFinite(at)) return;
    curve.mark(at);
    setAttr(answer, 'role', settled ? 'status' : null);
    setText(words, weightWords(cup, at));
    if (document.activeElement !== input) input.value = u.typedMinute(at * 1000);
    clearTimeout(timer);
    timer = setTimeout(() => ask(at), settled ? 0 : SETTLE_MS);
  }

  async function ask(at) {
    asked += 1;
    const mine = asked;
    try {
      const stood = await api.reasons(benchName, cupName, new Date(at * 1000));
      if (mine === asked) show(stood, at);
    } catch (error) {
      if (mine !== asked) return;
      why.replaceChildren();
      setText(state, t.momentUnknown(error.message));
      before.disabled = true;
      after.disabled = true;
    }
  }

  function show(stood, at) {
    shown = { since: Date.parse(stood.since) / 1000, until: stood.until ? Date.parse(stood.until) / 1000 : null };
    const items = reasonItems(stood.reasons);
    why.replaceChildren(
      h(
        'li',
        { class: stood.reasons.length > 0 ? 'stop' : 'go' },
        h('strong', null, text.state[stood.state] ?? stood.state),
        '. ',
        stood.reasons.length > 0 ? t.momentHeld : t.momentFree(stood.state),
      ),
      ...items,
    );
    const told = Date.parse(stood.told);
    const silent = at * 1000 - told > SILENT_AFTER_MS;
    setText(
      state,
      silent
        ? t.momentSilent(u.dayTime(told))
        : t.momentSince(u.dayTime(shown.since * 1000), shown.until ? u.dayTime(shown.until * 1000) : null),
    );
    before.disabled = false;
    after.disabled = shown.until === null;
  }

  return { el, tell };
}
