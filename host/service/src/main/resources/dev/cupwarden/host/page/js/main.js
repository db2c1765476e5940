// Starts the page: the frame around the views, the way between them, and what is said when the host or a
// controller goes silent.

import * as api from './api.js';
import { benchView } from './bench-view.js';
import { h, s, say, setAttr, setText } from './dom.js';
import { follow, leaveIfSignedOut, restWhenUnseen } from './live.js';
import { TROUBLE, alertsByCause } from './reading.js';
import { store } from './store.js';
import { nameOfAlert } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

/** Views but the first are fetched when first asked for, so that the bench is seen at once. */
const VIEWS = {
  cup: async (bench, rest) => (await import('./cup-view.js')).cupView(bench, rest[0]),
  'dry-downs': async (bench, rest) => (await import('./drydowns-view.js')).drydownsView(bench, rest),
  do: async (bench, rest) => (await import('./doing-view.js')).doingView(bench, rest[0], rest[1], rest[2]),
  tanks: async (bench) => (await import('./tanks-view.js')).tanksView(bench),
  alerts: async (bench) => (await import('./alerts-view.js')).alertsView(bench),
  days: async (bench) => (await import('./days-view.js')).daysView(bench),
  file: async (bench) => (await import('./file-view.js')).fileView(bench),
  season: async (bench) => (await import('./season-view.js')).seasonView(bench),
};
const NAV = [
  ['', 'bench'],
  ['dry-downs', 'drydowns'],
  ['do', 'doing'],
  ['tanks', 'tanks'],
  ['days', 'days'],
  ['alerts', 'alerts'],
  ['season', 'season'],
];

const main = document.getElementById('main');
const top = document.getElementById('top');
const foot = document.getElementById('foot');
const banner = h('div', { class: 'banner', id: 'banner', hidden: true });
const hostLine = h('div', { class: 'banner', id: 'host-line', role: 'status', hidden: true });
const age = h('p', { class: 'age', id: 'age' });
const nav = h('nav', { class: 'nav', 'aria-label': text.nav.label });
const who = h('p', { class: 'who', id: 'who', hidden: true });
const picker = h('select', {
  'aria-label': text.nav.pickBench,
  onchange: () => {
    location.hash = `#/${encodeURIComponent(picker.value)}`;
  },
});
let view = null;
let shownHash = null;

function parts() {
  return location.hash.replace(/^#\/?/, '').split('/').filter(Boolean).map(decodeURIComponent);
}

function currentBench() {
  const named = parts()[0];
  return store.bench(named) ? named : store.benches.keys().next().value;
}

function frame() {
  const mark = s(
    'svg',
    { class: 'mark', viewBox: '0 0 32 32', 'aria-hidden': 'true', focusable: 'false' },
    s('path', { class: 'mark-cup', d: 'M6 9h20l-3.4 20H9.400z' }),
    s('path', { class: 'mark-water', d: 'M7.2 17h17.600l-2 11.200H9.200z' }),
    s('path', { class: 'mark-stem', d: 'M16 22V3m0 5c3 0 5-2 5-5-3 0-5 2-5 5z' }),
  );
  top.append(
    h('div', { class: 'top-row' }, h('a', { class: 'brand', href: '#/' }, mark, h('span', null, text.product)), picker, age, who),
    hostLine,
    nav,
    banner,
  );
  const skip = document.getElementById('skip');
  skip.textContent = text.skip;
  skip.addEventListener('click', (event) => {
    event.preventDefault();
    main.focus();
  });
  foot.append(h('a', { href: '#/cautions' }, text.cautions.title), h('a', { href: '#/units' }, text.settings.title));
}

function drawNav() {
  const bench = currentBench();
  const at = parts()[1] ?? '';
  const names = [...store.benches.keys()];
  picker.hidden = names.length < 2;
  if (picker.dataset.names !== names.join('\n')) {
    picker.dataset.names = names.join('\n');
    picker.replaceChildren(...names.map((name) => h('option', { value: name }, name)));
  }
  if (bench) picker.value = bench;
  nav.hidden = !bench;
  u.useBenchZone(store.bench(bench)?.setup?.zone);
  const lone = ['cautions', 'units'].includes(parts()[0]);
  if (nav.dataset.bench !== bench) {
    nav.dataset.bench = bench ?? '';
    nav.replaceChildren(
      ...NAV.map(([path, key]) =>
        h(
          'a',
          { href: `#/${encodeURIComponent(bench)}${path ? `/${path}` : ''}`, 'data-path': path },
          h('span', null, text.nav[key]),
          key === 'alerts' ? h('span', { class: 'badge', hidden: true }) : null,
        ),
      ),
    );
  }
  for (const link of nav.children) {
    const current =
      !lone && (link.dataset.path === at || (at === 'cup' && link.dataset.path === '') || (at === 'file' && link.dataset.path === 'do'));
    setAttr(link, 'aria-current', current ? 'page' : null);
  }
  const badge = nav.querySelector('.badge');
  if (badge && bench) {
    const n = alertsByCause(store.bench(bench).unseen()).length; // as many as the alerts' view has parts not marked as seen
    badge.hidden = n === 0;
    setText(badge, String(n));
  }
}

async function viewFor(where) {
  if (where[0] === 'cautions') return (await import('./cautions-view.js')).cautionsView();
  if (where[0] === 'units') return (await import('./units-view.js')).unitsView();
  if (!store.loaded) return null; // A word of the live stream may come before the bench that it is of.
  if (store.benches.size === 0) return (await import('./first-view.js')).firstView();
  const bench = currentBench();
  const kind = where[1];
  if (!kind) return benchView(bench);
  return VIEWS[kind] ? VIEWS[kind](bench, where.slice(2)) : null;
}

/** The view, or, where its part of the program cannot be fetched, the reason. */
async function viewOrProblem() {
  try {
    return await viewFor(parts());
  } catch (error) {
    await leaveIfSignedOut();
    const heading = h('h1', { class: 'headline', tabindex: '-1' }, text.link.noView);
    return {
      el: h('section', { class: 'view' }, heading, h('p', { class: 'error' }, text.link.noViewWhy(error.message))),
      title: text.link.noView,
      heading,
      wantsBench: true,
    };
  }
}

async function show({ focus }) {
  const hash = location.hash;
  shownHash = hash;
  const next = await viewOrProblem();
  if (hash !== location.hash) return; // Gone on while the view was fetched.
  view?.leave?.();
  view = next;
  if (next) {
    main.replaceChildren(next.el);
    if (!parts()[1]) performance.mark('bench-shown');
    document.title = `${next.title} · ${text.product}`;
    if (focus) {
      (next.heading ?? main).focus({ preventScroll: true });
      scrollTo(0, 0);
    }
  } else {
    main.replaceChildren(
      h('section', { class: 'view' }, h('h1', { class: 'headline' }, store.loaded ? text.notFound : text.link.connecting)),
    );
  }
  drawNav();
}

function drawWho() {
  const { asks, name, role } = store.session;
  const key = asks ? `${name} ${role}` : '';
  who.hidden = !asks;
  if (who.dataset.key === key) return;
  who.dataset.key = key;
  const problem = h('span', { class: 'error', role: 'alert' });
  who.replaceChildren(
    text.session.as(name, role === 'act'),
    ' ',
    h(
      'button',
      {
        type: 'button',
        onclick: async () => {
          try {
            await api.signOut();
            location.assign('sign-in/');
          } catch (error) {
            setText(problem, text.session.failed(error.message));
          }
        },
      },
      text.session.out,
    ),
    problem,
  );
}

/** That the host stores nothing, or soon will not, concerns every bench and stands above all. */
function tellHost() {
  const { takes, since, low, free_mb: freeMb } = store.host ?? { takes: true };
  const words = !takes
    ? text.host.takesNothing(since ? u.dayTime(Date.parse(since)) : null)
    : low
      ? text.host.low(u.number(freeMb, 0))
      : '';
  setText(hostLine, words);
  hostLine.hidden = !words;
}

function tellAge() {
  tellHost();
  const bench = store.bench(currentBench());
  const now = Date.now();
  tellBanner(bench, now);
  if (!bench || !Number.isFinite(bench.now)) {
    setText(age, store.link.state === 'live' ? text.link.live : text.link.connecting);
    return;
  }
  const heard =
    bench.heardAt === null ? text.age.notYet : now - bench.heardAt < 2000 ? text.age.justNow : text.age.heard(u.span(now - bench.heardAt));
  setText(age, `${text.age.benchTime} ${u.dayTime(bench.now)} · ${heard}`);
  setAttr(age, 'data-stale', isStale(bench, now) ? 'yes' : 'no');
}

function isStale(bench, now) {
  const expectedMs = Math.max(60e3, 3e3 * (bench.status?.tick_s ?? 60));
  const since = bench.heardAt ?? store.link.since;
  return store.link.state === 'live' && now - since > expectedMs;
}

function tellBanner(bench, now) {
  const { state, since } = store.link;
  let words = '';
  if (state === 'lost') words = text.link.lost(u.span(now - since));
  else if (store.problem) words = text.link.failed(store.problem);
  else if (bench?.presence?.state === 'offline') {
    // How long that is can only be said of what this page heard itself: a bench's time may run fast.
    words = text.link.silent(u.dayTime(Date.parse(bench.presence.since)), bench.heardAt ? u.span(now - bench.heardAt) : null);
  } else if (bench && isStale(bench, now)) words = text.link.stale(u.span(now - (bench.heardAt ?? since)));
  setText(banner, words);
  banner.hidden = !words;
}

/** Only what turns to trouble is said aloud; the rest would be chatter. */
function sayTrouble(changes) {
  for (const { cup, before } of changes.cups.values()) {
    if (before && before.state !== cup.state && TROUBLE.includes(cup.state)) say(text.bench.said(cup.cup, text.state[cup.state]));
  }
  for (const { event } of changes.events) {
    if (event.kind === 'alert' && event.data.state === 'raised' && !event.data.again)
      say(text.bench.saidAlert(nameOfAlert(event.data.code), event.data.cup));
  }
}

const lastPresence = new Map();
function sayPresence() {
  for (const bench of store.benches.values()) {
    const state = bench.presence?.state ?? null;
    if (state === 'offline' && lastPresence.get(bench.name) === 'online') say(text.link.silentSaid);
    lastPresence.set(bench.name, state);
  }
}

let lastLink = 'connecting';
function onChange(changes) {
  if (changes.link && store.link.state !== lastLink) {
    if (store.link.state === 'lost') say(text.link.lostSaid);
    if (store.link.state === 'live' && lastLink === 'lost') say(text.link.backSaid);
    lastLink = store.link.state;
  }
  sayTrouble(changes);
  sayPresence();
  if (!view || (changes.all && view.wantsBench && store.benches.size > 0)) show({ focus: false });
  else view.onChange?.(changes);
  drawNav();
  drawWho();
  tellAge();
}

u.readFor({ language: navigator.languages?.[0], storage: () => localStorage });
frame();
store.subscribe(onChange);
addEventListener('hashchange', () => {
  if (location.hash !== shownHash) show({ focus: true });
});
setInterval(tellAge, 1000);
show({ focus: false });
follow();
restWhenUnseen();
