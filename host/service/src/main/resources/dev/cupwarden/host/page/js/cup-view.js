// One cup: what it is doing and why, its weight over any range, and what was done with it.

import * as api from './api.js';
import { coursePanel } from './course-panel.js';
import { drawCup, frameOf, roomFor, stateSign } from './cup-drawing.js';
import { h, numberCol, regionTable, setAttr, setText, toggles } from './dom.js';
import { whyNot, withoutPump } from './fitting.js';
import { notesPanel } from './notes-panel.js';
import { momentPanel } from './moment-panel.js';
import { KINDS_BESIDE, kindsOfCup } from './orders.js';
import { alertBefore, compareNames, depletionAt, forecastWords, groupOf, leftOf, massAt, strengthWords } from './reading.js';
import { reasonItems } from './reasons-list.js';
import { store } from './store.js';
import { nameOfAlert } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

const RANGES_H = [6, 24, 72, 336, 0];
const USUAL_RANGE_H = 72;
const MOST_DOSES = 500;
const TABLE_ROWS = 48;
const MOST_EVENTS = 20;
const SETTLE_MS = 250;
/** What stops every cup stands before what is of the one. */
const OF_THE_BENCH = ['hardware', 'hold', 'window'];
const t = text.cup;

function whenWords(iso, now) {
  const ms = Date.parse(iso);
  if (ms <= now) return t.now;
  return t.in(u.span(ms - now), u.near(ms, now));
}

function doseFields(event, setup) {
  const dose = event.data;
  return [
    u.dayTime(Date.parse(event.at)),
    u.volume(dose.plain_ml, 1),
    u.volume(dose.feed_ml, 1),
    strengthWords(setup, dose.strength),
    text.why[dose.why] ?? dose.why,
    t.dose[dose.outcome] ?? dose.outcome,
  ];
}

function nextFeedWords(cup) {
  const feed = cup.next_feed;
  if (!feed) return '–';
  const why = feed.capped_by.sentence;
  return t.nextFeedIs(u.number(feed.strength, 2), u.number(feed.n_mg_per_l), u.number(feed.ec_ms_per_cm, 2), why);
}

/** Of a day without a time, as the reader writes it. */
const dayOf = (day) => u.day(Date.parse(`${day}T12:00:00Z`));

function rootsWords(cup) {
  const next = cup.rooting?.white ?? cup.rooting?.toughened;
  if (!next) return '–';
  const words = cup.rooting.white ? t.whiteLikely : t.toughenedLikely;
  return words(dayOf(next.likely), dayOf(next.from), dayOf(next.to));
}

function plantWords(setup, cup) {
  const plant = setup?.plants?.[cup.plant];
  if (!plant) return '–';
  const words = t.plantIs(plant.days[0], plant.days[1], u.temp(plant.days_at_c), u.temp(plant.root_c[0]), u.temp(plant.root_c[1]));
  return plant.own ? `${words} (${t.plantOwn})` : words;
}

function head(benchName, cupName) {
  const heading = h('h1', { class: 'headline', tabindex: '-1' });
  const state = h('p', { class: 'cup-state' });
  const means = h('p', { class: 'quiet' });
  const picture = h('div');
  const facts = h('dl', { class: 'cup-facts' });
  const others = h('div', { class: 'row' });
  const el = h(
    'div',
    null,
    h('div', { class: 'cup-top' }, h('a', { class: 'button', href: `#/${encodeURIComponent(benchName)}` }, `← ${t.back}`), others),
    h('div', { class: 'cup-head' }, picture, h('div', null, heading, state, means), facts),
  );
  let drawing = null;
  let drawnFor = null;

  function show(bench, cup) {
    setText(heading, t.title(cup.cup, cup.plant));
    setAttr(state, 'data-group', groupOf(bench, cup));
    const worse = cup.state === 'dry' || cup.state === 'wet';
    const alert = alertBefore(bench, cup);
    const words = alert ? nameOfAlert(alert.code) : text.state[cup.state];
    state.replaceChildren(
      stateSign(alert ? 'alert' : cup.state),
      h('span', null, worse ? words : `${words}, ${forecastWords(cup, bench.now)}`),
    );
    const byHand = cup.state === 'due' && withoutPump(bench, cup);
    setText(means, alert ? (alert.do ?? '') : byHand ? text.dueByHand : text.stateMeans[cup.state]);
    if (!drawing || drawnFor !== bench.setup) {
      drawnFor = bench.setup;
      const frame = frameOf(cup, bench.setup);
      drawing = drawCup(frame, roomFor([frame]));
      picture.replaceChildren(drawing.el);
    }
    drawing.update(cup);
    const left = leftOf(cup.depletion);
    const rows = [
      [t.water, left === null ? '–' : `${u.percent(left)}, ${u.volume(left * cup.available_ml)}`],
      [t.mass, cup.mass_g === null ? '–' : `${u.mass(cup.mass_g)} (${cup.trusted ? t.trusted : t.untrusted})`],
      [t.rate, u.rate(cup.rate_g_h)],
      [t.due, cup.due_at ? whenWords(cup.due_at, bench.now) : '–'],
      [t.nextWater, cup.water_at ? whenWords(cup.water_at, bench.now) : '–'],
      [t.dry, cup.dry_at ? whenWords(cup.dry_at, bench.now) : '–'],
      [t.fed, t.fedOf(u.percent(cup.fed))],
      [t.nextFeed, nextFeedWords(cup)],
      [t.plant, plantWords(bench.setup, cup)],
      [t.roots, rootsWords(cup)],
      [t.air, cup.little_air?.sentence ?? '–'],
      [t.sure, cup.sd === null ? '–' : t.sureIs(cup.sd < 0.01 ? t.sureWithin : `± ${u.percent(cup.sd)}`)],
      [text.stageSeen[cup.stage], text.stageFeed[cup.stage]],
    ];
    while (facts.children.length < rows.length) facts.append(h('div', null, h('dt'), h('dd')));
    rows.forEach(([term, words], i) => {
      setText(facts.children[i].firstChild, term);
      setText(facts.children[i].lastChild, words);
    });
    const names = [...bench.cups.keys()].sort(compareNames);
    if (others.childElementCount === 0 && names.length > 1) {
      const at = names.indexOf(cupName);
      const go = (name, words) =>
        h(
          'a',
          {
            class: 'button',
            href: `#/${encodeURIComponent(benchName)}/cup/${encodeURIComponent(name)}`,
            'aria-label': `${words}: ${name}`,
          },
          name,
        );
      others.append(go(names[(at + names.length - 1) % names.length], t.previous), go(names[(at + 1) % names.length], t.next));
      others.firstChild.prepend('‹ ');
      others.lastChild.append(' ›');
    }
  }
  return { el, heading, show };
}

function whyPanel() {
  const list = h('ul', { class: 'says' });
  const alerts = h('ul', { class: 'says' });
  const alertTitle = h('h3', null, t.alerts);
  const el = h('section', { class: 'panel' }, h('h2', null, t.why), list, alertTitle, alerts);
  let shown = '';
  return {
    el,
    show(bench, cup) {
      const own = bench.alertsOf(cup.cup);
      const key = JSON.stringify([cup.reasons, own, bench.alerts.map((alert) => alert.code), forecastWords(cup, bench.now)]);
      if (key === shown) return;
      shown = key;
      const first = cup.reasons.filter((reason) => OF_THE_BENCH.includes(reason.code));
      const lines = reasonItems(cup.reasons.filter((reason) => !first.includes(reason)));
      const pastDue = cup.depletion !== null && cup.depletion >= cup.due;
      if (!pastDue && cup.trusted && cup.depletion !== null) {
        const toDue = cup.due_at ? Date.parse(cup.due_at) - bench.now : NaN;
        lines.unshift(h('li', { class: 'go' }, toDue > 0 ? t.whyNotDue(u.span(toDue)) : t.whyNotDueUnknown));
      }
      const empty = bench.alerts.filter((alert) => alert.code === 'tank-empty' && alert.state !== 'warned');
      lines.unshift(
        ...empty.map((alert) => h('li', { class: 'stop' }, h('strong', null, nameOfAlert(alert.code)), `: ${alert.do}`)),
        ...reasonItems(first),
      );
      if (cup.reasons.length === 0 && empty.length === 0) lines.push(h('li', { class: 'go' }, t.whyFree));
      list.replaceChildren(...lines);
      alertTitle.hidden = own.length === 0;
      alerts.replaceChildren(
        ...own.map((alert) =>
          h(
            'li',
            { class: 'stop' },
            h('strong', null, nameOfAlert(alert.code)),
            ': ',
            alert.do,
            h(
              'span',
              { class: 'quiet' },
              ` ${text.alerts.since(u.near(Date.parse(alert.since), bench.now), u.span(bench.now - Date.parse(alert.since)))}`,
            ),
          ),
        ),
      );
    },
  };
}

/** The curve with its range buttons, its sentence and its table; `moment(at)` and `ranged(from, to)` hear of the reader's moves. */
function curvePanel(benchName, cupName, heard) {
  const place = h('div', { class: 'chart', tabindex: '0', role: 'group', 'aria-label': t.chartLabel(cupName) });
  const summary = h('p', { role: 'status' }, t.loading);
  const table = h('tbody');
  const tableBox = h(
    'details',
    { ontoggle: () => tell() },
    h('summary', null, t.table),
    regionTable(t.chart, [t.colTime, numberCol(t.colMass), numberCol(t.colLeft)], table),
  );
  let following = USUAL_RANGE_H; // hours up to now; null while the reader looks elsewhere
  const ranges = toggles(
    RANGES_H,
    (hours) => t.range[hours],
    (hours) => hours === following,
    (hours) => follow(hours),
  );
  const doses = h('tbody');
  const doseNone = h('p', { class: 'quiet' }, t.noDoses);
  const doseTable = regionTable(t.doses, [t.colTime, t.colWater, t.colFeed, t.colStrength, t.colWhy, t.colOutcome], doses);
  const el = h(
    'section',
    { class: 'panel' },
    h('h2', null, t.chart),
    h('div', { class: 'row', role: 'group', 'aria-label': t.ranges }, ranges.buttons),
    place,
    summary,
    h('p', { class: 'quiet' }, t.chartHint),
    tableBox,
  );
  const doseEl = h('section', { class: 'panel' }, h('h2', null, t.doses), doseNone, doseTable);

  let chart = null;
  let data = { at: [], mass_g: [] };
  let doseEvents = [];
  let range = null;
  let asked = 0;
  let timer = null;
  const bench = () => store.bench(benchName);
  const cup = () => bench()?.cups.get(cupName);

  function follow(hours) {
    following = hours;
    const to = bench().now / 1000;
    range = { from: hours === 0 ? (data.first ?? to - 336 * 3600) : to - hours * 3600, to };
    ranges.show();
    chart?.setRange(range.from, range.to);
    load(hours === 0);
  }

  function moved(from, to) {
    following = null;
    range = { from, to };
    ranges.show();
    clearTimeout(timer);
    timer = setTimeout(() => load(false), SETTLE_MS);
    tell();
  }

  async function load(everything) {
    asked += 1;
    const mine = asked;
    const pad = (range.to - range.from) / 2;
    const from = everything ? new Date(0) : new Date((range.from - pad) * 1000);
    const to = following === null ? new Date((range.to + pad) * 1000) : undefined;
    try {
      const [weights, events] = await Promise.all([
        api.weights(benchName, cupName, from, to),
        api.events(benchName, { cup: cupName, kind: 'dose', from, to, limit: MOST_DOSES }),
      ]);
      if (mine !== asked) return; // The reader has moved on.
      data = { at: weights.at, mass_g: weights.mass_g, first: everything ? weights.at[0] : data.first };
      doseEvents = events.sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
      if (everything && weights.at.length > 0) range = { from: weights.at[0], to: bench().now / 1000 };
      if (!chart) await begin();
      draw();
      heard.ranged(range.from, range.to);
    } catch (error) {
      if (mine === asked) setText(summary, t.failed(error.message));
    }
  }

  async function begin() {
    const { weightChart } = await import('./chart.js');
    if (chart || !place.isConnected) return;
    chart = weightChart(place, { ...range, moved, home: () => follow(USUAL_RANGE_H), moment: heard.moment });
  }

  function draw() {
    if (!chart) return;
    mark();
    chart.setData(data.at, data.mass_g);
    chart.setRange(range.from, range.to);
    tell();
  }

  function mark() {
    const now = cup();
    if (!now || !chart) return;
    const lines = [
      ['wet', now.wet],
      ['capacity', 0],
      ['refill', now.refill],
      ['due', now.due],
      ['dry', now.dry],
    ]
      .filter(([name]) => name !== 'capacity' || (Math.abs(now.refill) > 0.03 && Math.abs(now.wet) > 0.03))
      .map(([name, depletion]) => ({ name, massG: massAt(now, depletion), label: t.line[name] }));
    chart.setMarks(
      lines,
      doseEvents.map((event) => ({
        at: Date.parse(event.at) / 1000,
        feed: event.data.feed_ml > 0,
        ml: event.data.plain_ml + event.data.feed_ml,
      })),
    );
  }

  function inRange() {
    const rows = [];
    data.at.forEach((at, i) => {
      if (at >= range.from && at <= range.to && data.mass_g[i] !== null) rows.push([at, data.mass_g[i]]);
    });
    return rows;
  }

  function tell() {
    const rows = inRange();
    const given = doseEvents.filter((event) => Date.parse(event.at) / 1000 >= range.from && Date.parse(event.at) / 1000 <= range.to);
    if (rows.length === 0) setText(summary, t.noWeights);
    else {
      const masses = rows.map((row) => row[1]);
      const change = masses.at(-1) - masses[0];
      const changed = Math.abs(change) < 0.05 ? t.same : change < 0 ? t.lost(u.mass(-change)) : t.gained(u.mass(change));
      const volume = given.reduce((sum, event) => sum + event.data.plain_ml + event.data.feed_ml, 0);
      setText(
        summary,
        `${t.summary(u.mass(Math.min(...masses)), u.mass(Math.max(...masses)), u.dayTime(rows[0][0] * 1000), u.dayTime(rows.at(-1)[0] * 1000), changed)} ${t.summaryDoses(given.length, u.volume(volume), given.length >= MOST_DOSES)}`,
      );
    }
    doses.replaceChildren(
      ...[...given].reverse().map((event) =>
        h(
          'tr',
          null,
          doseFields(event, bench().setup).map((field) => h('td', null, field)),
        ),
      ),
    );
    doseTable.hidden = given.length === 0;
    doseNone.hidden = given.length > 0;
    if (tableBox.open) tellTable(rows);
  }

  function tellTable(rows) {
    const step = Math.max(1, Math.ceil(rows.length / TABLE_ROWS));
    const picked = rows.filter((_row, i) => (rows.length - 1 - i) % step === 0).reverse();
    table.replaceChildren(
      ...picked.map(([at, mass]) =>
        h(
          'tr',
          null,
          h('td', null, u.dayTime(at * 1000)),
          h('td', { class: 'n' }, u.mass(mass)),
          h('td', { class: 'n' }, u.percent(leftOf(depletionAt(cup(), mass)))),
        ),
      ),
    );
  }

  function onChange(changes) {
    if (!range) return;
    const news = changes.weights.filter((word) => word.bench === benchName && word.cup === cupName && word.at > (data.at.at(-1) ?? 0));
    for (const word of news) {
      data.at.push(word.at);
      data.mass_g.push(word.mass_g);
    }
    const watered = changes.events.filter(({ bench: name, event }) => name === benchName && event.cup === cupName && event.kind === 'dose');
    doseEvents.push(...watered.map(({ event }) => event));
    if (following !== null && (news.length > 0 || watered.length > 0)) {
      const to = bench().now / 1000;
      range = { from: following === 0 ? range.from : to - following * 3600, to };
    }
    if (chart && (news.length > 0 || watered.length > 0)) draw();
    else if (changes.cups.has(`${benchName}/${cupName}`)) mark();
  }

  return {
    el,
    doseEl,
    start: () => follow(USUAL_RANGE_H),
    onChange,
    reload: () => load(following === 0),
    data: () => data,
    doses: () => doseEvents,
    mark: (at) => chart?.setMoment(at),
    end: () => chart?.end(),
  };
}

/** What else happened to this cup: alerts and changes, newest first. */
function eventsPanel(benchName, cupName) {
  const list = h('ul', { class: 'says' });
  const el = h('section', { class: 'panel' }, h('h2', null, t.events), list);

  function words(event) {
    if (event.kind === 'alert')
      return `${nameOfAlert(event.data.code)}: ${event.data.again ? text.alerts.toldAgain : (text.alertState[event.data.state] ?? event.data.state)}`;
    const { change, detail, order, foretold } = event.data ?? {};
    if (change === 'roots-seen') return t.rootsSeen(dayOf(foretold.likely), dayOf(foretold.from), dayOf(foretold.to));
    if (order) return `${text.doing.kind[order.kind] ?? order.kind}${order.by ? ` (${order.by})` : ''}`;
    return [change, typeof detail === 'object' ? JSON.stringify(detail) : detail].filter(Boolean).join(': ');
  }
  async function load() {
    try {
      const sets = await Promise.all(['alert', 'change'].map((kind) => api.events(benchName, { cup: cupName, kind, limit: MOST_EVENTS })));
      const events = sets
        .flat()
        .sort((a, b) => Date.parse(b.at) - Date.parse(a.at))
        .slice(0, MOST_EVENTS);
      list.replaceChildren(
        ...(events.length === 0
          ? [h('li', { class: 'quiet' }, t.noEvents)]
          : events.map((event) => h('li', null, h('span', { class: 'quiet' }, `${u.dayTime(Date.parse(event.at))} `), words(event)))),
      );
    } catch (error) {
      list.replaceChildren(h('li', { class: 'stop' }, t.eventsFailed(error.message)));
    }
  }
  load();
  return { el, load };
}

/** What may be done with it now; the rest under a fold, with the reason. It may be ordered all the same: the controller knows best. */
function doingPanel(benchName, cupName) {
  const now = h('div', { class: 'row' });
  const rest = h('ul', { class: 'says' });
  const fold = h('details', null, h('summary'), rest);
  const link = (kind) =>
    h(
      'a',
      {
        class: 'button',
        'data-kind': kind,
        href: `#/${encodeURIComponent(benchName)}/do/${kind}/${encodeURIComponent(cupName)}${kind === 'add' ? '/like' : ''}`,
      },
      t.beside[kind] ?? text.doing.kind[kind],
    );
  let shown = '';
  return {
    el: h('section', { class: 'panel doing' }, h('h2', null, t.doing), now, fold),
    show(bench, cup) {
      const kinds = [...kindsOfCup(), ...KINDS_BESIDE].map((kind) => ({ kind, why: whyNot(kind, bench, cup) }));
      const key = JSON.stringify(kinds);
      if (key === shown) return;
      shown = key;
      const focused = document.activeElement?.getAttribute('data-kind');
      const later = kinds.filter(({ why }) => why);
      now.replaceChildren(...kinds.filter(({ why }) => !why).map(({ kind }) => link(kind)));
      rest.replaceChildren(...later.map(({ kind, why }) => h('li', { class: 'not-now' }, link(kind), h('span', { class: 'quiet' }, why))));
      setText(fold.firstChild, t.notNow(later.length));
      fold.hidden = later.length === 0;
      if (focused) now.parentElement.querySelector(`[data-kind=${focused}]`)?.focus({ preventScroll: true });
    },
  };
}

export function cupView(benchName, cupName) {
  const top = head(benchName, cupName);
  const why = whyPanel();
  const doing = doingPanel(benchName, cupName);
  const course = coursePanel(benchName, cupName);
  const curve = curvePanel(benchName, cupName, { moment: (at, settled) => moment.tell(at, settled), ranged: course.show });
  const moment = momentPanel(benchName, cupName, curve);
  const events = eventsPanel(benchName, cupName);
  const el = h(
    'section',
    { class: 'view' },
    top.el,
    h(
      'div',
      { class: 'panels side-first' },
      h('div', null, why.el, doing.el),
      h('div', null, curve.el, moment.el, curve.doseEl, course.el, notesPanel(benchName, cupName), events.el),
    ),
  );
  const show = () => {
    const bench = store.bench(benchName);
    const cup = bench?.cups.get(cupName);
    if (cup) {
      top.show(bench, cup);
      why.show(bench, cup);
      doing.show(bench, cup);
    }
    return Boolean(cup);
  };
  const known = show();
  if (!known) {
    const heading = h('h1', { class: 'headline', tabindex: '-1' }, t.unknown(cupName));
    return {
      el: h('section', { class: 'view' }, heading, h('a', { href: `#/${encodeURIComponent(benchName)}` }, t.back)),
      title: cupName,
      heading,
      wantsBench: true,
    };
  }
  setTimeout(curve.start);
  return {
    el,
    title: cupName,
    heading: top.heading,
    onChange(changes) {
      if (changes.all || changes.benches.has(benchName)) show();
      if (changes.all) curve.reload();
      curve.onChange(changes);
      if (changes.events.some(({ event }) => event.cup === cupName && !['dose', 'decision'].includes(event.kind))) events.load();
    },
    leave() {
      curve.end();
      course.end();
    },
  };
}
