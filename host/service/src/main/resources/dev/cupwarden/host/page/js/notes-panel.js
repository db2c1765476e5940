// What people wrote and photographed of a cup: kept by the host, week beside week, needed by nothing.

import * as api from './api.js';
import { dayOf } from './days.js';
import { field, h, say, setText } from './dom.js';
import { store } from './store.js';
import { text } from './text.js';
import * as u from './units.js';

const t = text.notes;
/** Of the longer side, in picture elements: roots at the wall can be told, and a winter of photos stays small. */
const LONGEST = 1280;
const QUALITY = 0.8;

const dayMs = (day) => Date.parse(`${day}T12:00:00Z`);
/** The Monday of the week that a day is in. */
function weekOf(day) {
  const date = new Date(dayMs(day));
  date.setUTCDate(date.getUTCDate() - ((date.getUTCDay() + 6) % 7));
  return date.toISOString().slice(0, 10);
}

/** A photo made small, its picture alone, as base64. */
async function smallPhoto(file) {
  const picture = await createImageBitmap(file);
  const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
  const canvas = h('canvas', { width: Math.round(picture.width * scale), height: Math.round(picture.height * scale) });
  canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL('image/jpeg', QUALITY).split(',')[1];
}

export function notesPanel(benchName, cupName) {
  const bench = store.bench(benchName);
  const words = h('textarea', { rows: '2', maxlength: '1000' });
  const day = h('input', { type: 'date', value: dayOf(bench.now) });
  const stage = h(
    'select',
    null,
    Object.entries(text.stageSeen).map(([value, said]) => h('option', { value, selected: value === bench.cups.get(cupName)?.stage }, said)),
  );
  const photos = h('input', { type: 'file', accept: 'image/*', multiple: true });
  const error = h('p', { class: 'error', role: 'alert' });
  const keep = h('button', { type: 'submit', class: 'main', disabled: !store.mayAct() }, t.keep);
  const weeks = h('div', { class: 'weeks', role: 'region', tabindex: '0', 'aria-label': t.weeks, hidden: true });
  const list = h('ul', { class: 'says' });
  const state = h('p', { class: 'quiet', role: 'status' });

  async function send(event) {
    event.preventDefault();
    setText(error, '');
    keep.disabled = true;
    try {
      const pictures = [...photos.files];
      if (!words.value.trim() && pictures.length === 0) throw new Error(t.empty);
      const note = { day: day.value, stage: stage.value };
      // The words go with the first photo; each further photo is a note of its own.
      const first = pictures.length > 0 ? { photo: await smallPhoto(pictures[0]) } : {};
      await api.keepNote(benchName, cupName, { ...note, words: words.value, ...first });
      words.value = '';
      for (const file of pictures.slice(1)) await api.keepNote(benchName, cupName, { ...note, words: '', photo: await smallPhoto(file) });
      photos.value = '';
      say(t.kept);
      await load();
    } catch (problem) {
      setText(error, t.failed(problem.message));
    } finally {
      keep.disabled = !store.mayAct();
    }
  }

  async function remove(note, button) {
    button.disabled = true;
    try {
      await api.deleteNote(benchName, cupName, note.id);
      say(t.deleted);
      await load();
      words.focus();
    } catch (problem) {
      setText(error, t.failed(problem.message));
      button.disabled = false;
    }
  }

  const seen = (note) => t.seen(u.day(dayMs(note.day)), text.stage[note.stage] ?? note.stage, note.by);

  /** One column a week, oldest first: what has grown is seen from left to right. */
  function tellWeeks(notes) {
    const byWeek = new Map();
    for (const note of notes.filter((each) => each.photo)) {
      const week = weekOf(note.day);
      byWeek.set(week, [...(byWeek.get(week) ?? []), note]);
    }
    weeks.hidden = byWeek.size === 0;
    weeks.replaceChildren(
      ...[...byWeek].map(([week, ofWeek]) =>
        h(
          'section',
          null,
          h('h3', null, t.week(u.day(dayMs(week)))),
          ofWeek.map((note) =>
            h(
              'figure',
              null,
              h('img', { src: api.photoOf(benchName, cupName, note.id), alt: t.photo(cupName, seen(note)), loading: 'lazy' }),
              h('figcaption', { class: 'quiet' }, seen(note)),
            ),
          ),
        ),
      ),
    );
  }

  async function load() {
    try {
      const notes = await api.notes(benchName, cupName);
      setText(state, notes.length === 0 ? t.none : '');
      tellWeeks(notes);
      list.replaceChildren(
        ...notes.toReversed().map((note) => {
          const button = h(
            'button',
            { type: 'button', disabled: !store.mayAct(), 'aria-label': `${t.remove}: ${seen(note)}`, onclick: () => remove(note, button) },
            t.remove,
          );
          return h('li', null, h('span', { class: 'quiet' }, `${seen(note)}: `), note.words || t.photoAlone, ' ', button);
        }),
      );
    } catch (problem) {
      setText(state, t.unread(problem.message));
    }
  }

  load();
  return h(
    'section',
    { class: 'panel notes' },
    h('h2', null, t.title),
    h(
      'form',
      { onsubmit: send, novalidate: true },
      field(t.words, words),
      h('div', { class: 'row' }, field(t.day, day), field(t.stage, stage), field(t.photos, photos)),
      h('p', { class: 'quiet' }, t.plain),
      error,
      h('p', null, keep),
    ),
    state,
    weeks,
    h('p', null, h('a', { href: `#/${encodeURIComponent(benchName)}/dry-downs/${encodeURIComponent(cupName)}` }, t.beside)),
    list,
  );
}
