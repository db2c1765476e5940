// The bench at a glance: is any cup in trouble, what is watered next, is anything held.

import * as api from './api.js';
import { chooser } from './choice.js';
import { drawCup, frameOf, roomFor, stateSign } from './cup-drawing.js';
import { freshId, h, setAttr, setText } from './dom.js';
import { fitting } from './fitting.js';
import {
  alertBefore,
  alertsByCause,
  commonLimit,
  compareCups,
  compareNames,
  forecastWords,
  groupOf,
  GROUPS,
  heldUntilMs,
  holdingWater,
  isHeldWhole,
  leftWords,
  runsWithout,
  waterMs,
} from './reading.js';
import { look, newsSince } from './last-look.js';
import { Spark } from './spark.js';
import { store } from './store.js';
import { nameOfAlert, nameOfLimit } from './tables.js';
import { text } from './text.js';
import * as u from './units.js';

/** Orders that are often given to several cups. */
const KINDS_OF_SEVERAL = ['away', 'back', 'stage', 'watered', 'hold', 'release'];
const SAME_HOLD_MS = 120e3; // what cups tell of its end is rounded
const DENSE_FROM = 25;
const SEARCH_FROM = 13;
const MANY = 2;
const FORECASTS_EVERY_MS = 60e3; // by the bench's own time
const BUDGET_MS = 5;

/** The card that an element belongs to. */
const cardOf = new WeakMap();

/** One cup's card; a link to its own view. */
class Card {
  constructor(bench, cup, room, choose) {
    this.signed = null; // whose sign is drawn: a state's, or that of an alert
    this.name = h('span', { class: 'card-name' }, cup.cup);
    this.plant = h('span', { class: 'card-plant' });
    this.sign = h('span', { class: 'card-sign' });
    this.stateWord = h('span');
    this.forecast = h('p', { class: 'card-forecast' });
    this.left = h('p', { class: 'card-left' });
    this.stage = h('p', { class: 'card-stage' });
    this.trouble = h('p', { class: 'card-trouble' });
    this.drawing = drawCup(frameOf(cup, bench.setup), room);
    this.spark = new Spark(bench.name, cup);
    const title = freshId('card');
    this.tick = h('input', { type: 'checkbox', 'data-cup': cup.cup, 'aria-label': text.choice.tick(cup.cup), onchange: choose });
    this.el = h(
      'li',
      { class: 'card-place' },
      h(
        'a',
        { class: 'card', href: `#/${encodeURIComponent(bench.name)}/cup/${encodeURIComponent(cup.cup)}` },
        h('div', { class: 'card-picture' }, this.drawing.el),
        h(
          'div',
          { class: 'card-words' },
          h('h3', { id: title }, this.name, ' ', this.plant),
          h('p', { class: 'card-state' }, this.sign, this.stateWord),
          this.forecast,
          this.trouble,
          this.left,
          this.stage,
          this.spark.el,
        ),
      ),
      h('label', { class: 'tick' }, this.tick),
    );
    cardOf.set(this.el.firstElementChild, this);
  }

  show(bench, cup) {
    this.cup = cup;
    this.spark.cup = cup;
    setText(this.plant, cup.plant ?? '');
    const first = alertBefore(bench, cup);
    const sign = first ? 'alert' : cup.state;
    if (this.signed !== sign) {
      this.signed = sign;
      this.sign.replaceChildren(stateSign(sign));
    }
    setText(this.stateWord, first ? nameOfAlert(first.code) : (text.state[cup.state] ?? cup.state));
    this.group = groupOf(bench, cup);
    setAttr(this.el.firstChild, 'data-group', this.group);
    setText(this.left, leftWords(cup));
    setText(this.stage, text.stage[cup.stage] ?? cup.stage);
    const alerts = bench.alertsOf(cup.cup);
    setText(
      this.trouble,
      alerts
        .map(
          (alert) =>
            `${alert === first ? '' : `${nameOfAlert(alert.code)}. `}${alert.do ?? ''}${alert.acknowledged ? ` (${text.alerts.seenShort})` : ''}`,
        )
        .join(' '),
    );
    this.trouble.hidden = alerts.length === 0;
    this.tellForecast(bench);
    this.drawing.update(cup);
  }

  tellForecast(bench) {
    setText(this.forecast, forecastWords(this.cup, bench.now));
  }
}

export function benchView(benchName) {
  const cards = new Map();
  let room = null;
  let drawnFor = null;
  const headline = h('h1', { class: 'headline', tabindex: '-1' });
  const facts = h('dl', { class: 'facts' });
  const alertLine = h('ul', { class: 'alert-lines' });
  const search = h('input', { type: 'search', autocomplete: 'off', oninput: () => filter() });
  const searchBox = h('label', { class: 'search' }, h('span', null, text.bench.search), search);
  const found = h('p', { class: 'quiet', role: 'status' });
  const groups = new Map(GROUPS.map((group) => [group, makeGroup(group)]));
  const legend = makeLegend();
  const body = h('div', { class: 'bench' });
  const sight = new IntersectionObserver(
    (entries) => {
      for (const entry of entries) cardOf.get(entry.target).spark.inSight(entry.isIntersecting, store.bench(benchName));
    },
    { rootMargin: '200px' },
  );

  const several = h('div', { class: 'several' });
  const chosenWords = h('p', { role: 'status' });
  const chosenOrders = h('div', { class: 'row', role: 'group', 'aria-label': text.choice.orders });
  const chosenBar = h('div', { class: 'chosen', hidden: true }, chosenWords, chosenOrders);
  const news = h('div');
  const el = h('section', { class: 'view' }, headline, news, facts, alertLine, several, searchBox, found, body, chosenBar, legend.el);
  body.append(...[...groups.values()].map((group) => group.el));

  function makeGroup(group) {
    const count = h('span', { class: 'count' });
    const list = h('ul', { class: 'cards' });
    const id = freshId('group');
    return {
      list,
      count,
      el: h(
        'section',
        { class: `group group-${group}`, 'aria-labelledby': id, hidden: true },
        h('h2', { id }, text.bench.group[group], ' ', count),
        list,
      ),
    };
  }

  function makeLegend() {
    const scale = h('li');
    return {
      scale,
      el: h(
        'details',
        { class: 'legend' },
        h('summary', null, text.bench.legendTitle),
        h(
          'ul',
          null,
          text.bench.legend.map((line) => h('li', null, line)),
          scale,
        ),
      ),
    };
  }

  function cardsOf(bench) {
    const frames = [...bench.cups.values()].map((cup) => frameOf(cup, bench.setup));
    const needed = roomFor(frames);
    if (!room || drawnFor !== bench.setup || needed.top > room.top || needed.depth > room.depth) {
      room = needed; // Other vessels, or a larger cup: all are drawn anew, to the new scale.
      drawnFor = bench.setup;
      cards.forEach((card) => drop(card));
      cards.clear();
    }
    setText(legend.scale, frames.some((frame) => frame.known) ? text.bench.toScale : text.bench.toScaleWater);
    for (const cup of bench.cups.values()) {
      if (!cards.has(cup.cup)) {
        const card = new Card(bench, cup, room, chooseByTick);
        cards.set(cup.cup, card);
        sight.observe(card.el.firstChild);
      }
      cards.get(cup.cup).show(bench, cup);
    }
    for (const [name, card] of cards) {
      if (bench.cups.has(name)) continue;
      drop(card);
      cards.delete(name);
    }
    setAttr(body, 'class', cards.size >= DENSE_FROM ? 'bench dense' : 'bench');
    searchBox.hidden = cards.size < SEARCH_FROM;
  }

  function drop(card) {
    sight.unobserve(card.el.firstChild);
    card.el.remove();
  }

  function chooseByTick() {
    const ticked = [...cards.values()].filter((card) => card.tick.checked).map((card) => card.cup.cup);
    store.bench(benchName).chosen = new Set(ticked.sort(compareNames));
    tellChosen(store.bench(benchName));
  }

  function choose(names) {
    store.bench(benchName).chosen = new Set(names);
    tellChosen(store.bench(benchName));
  }

  /** The ways to choose, drawn anew only where a cup, a plant or a stage is another: who is at them keeps the focus. */
  function tellWays(bench) {
    const key = JSON.stringify([...bench.cups.values()].map((cup) => [cup.cup, cup.plant, cup.stage]));
    several.hidden = bench.cups.size < MANY;
    if (several.dataset.key === key) return;
    several.dataset.key = key;
    several.replaceChildren(h('span', { class: 'quiet' }, text.choice.lead), chooser(bench, choose));
  }

  /** What may be done to those that are chosen: each order names the cups that it is for now. */
  function tellChosen(bench) {
    const names = [...bench.chosen].filter((name) => bench.cups.has(name));
    for (const [name, card] of cards) card.tick.checked = bench.chosen.has(name);
    chosenBar.hidden = names.length === 0;
    setText(chosenWords, names.length > 0 ? text.choice.chosen(names) : '');
    const orders = KINDS_OF_SEVERAL.map((kind) => [kind, fitting(kind, bench, names)]).filter(([, fit]) => fit.length > 0);
    const key = JSON.stringify([names, orders]);
    if (chosenOrders.dataset.key === key) return;
    chosenOrders.dataset.key = key;
    const focused = document.activeElement?.getAttribute('data-kind');
    chosenOrders.replaceChildren(
      ...orders.map(([kind, fit]) =>
        h(
          'a',
          {
            class: 'button',
            'data-kind': kind,
            href: `#/${encodeURIComponent(benchName)}/do/${kind}/${encodeURIComponent(fit.join(','))}`,
          },
          fit.length < names.length ? text.choice.of(text.doing.kind[kind], fit.length) : text.doing.kind[kind],
        ),
      ),
    );
    if (focused) chosenOrders.querySelector(`[data-kind=${focused}]`)?.focus({ preventScroll: true });
  }

  /** Puts cards in order; only those out of place are moved, and the one with the focus keeps it. */
  function arrange() {
    const focused = document.activeElement;
    const sorted = [...cards.values()].sort((a, b) => compareCups(a.cup, b.cup));
    for (const [name, group] of groups) {
      const members = sorted.filter((card) => card.group === name);
      members.forEach((card, i) => {
        if (group.list.children[i] !== card.el) group.list.insertBefore(card.el, group.list.children[i] ?? null);
      });
      setText(group.count, String(members.length));
      group.el.hidden = members.length === 0;
    }
    if (focused !== document.activeElement && focused instanceof HTMLElement && focused.isConnected) focused.focus({ preventScroll: true });
    filter();
  }

  function filter() {
    const wanted = search.value.trim().toLowerCase();
    let n = 0;
    for (const card of cards.values()) {
      const fits = !wanted || `${card.cup.cup} ${card.cup.plant}`.toLowerCase().includes(wanted);
      card.el.hidden = !fits;
      if (fits) n += 1;
    }
    setText(found, wanted ? text.bench.found(n) : '');
  }

  function tellHeadline(bench) {
    const inTrouble = [...cards.values()].filter((card) => card.group === 'trouble').length;
    const benchAlerts = bench.alerts.filter((alert) => !alert.cup);
    const words =
      cards.size === 0
        ? text.bench.noCups
        : inTrouble > 0
          ? text.bench.trouble(inTrouble)
          : benchAlerts.length > 0
            ? text.bench.benchTrouble
            : isHeldWhole(bench)
              ? heldWholeWords(bench)
              : text.bench.allWell(cards.size);
    setText(headline, words);
    setAttr(headline, 'data-trouble', inTrouble > 0 || benchAlerts.length > 0 ? 'yes' : 'no');
  }

  function nextWords(bench) {
    const names = (fits) =>
      [...bench.cups.values()]
        .filter(fits)
        .map((cup) => cup.cup)
        .sort(compareNames);
    const now = names((cup) => cup.state === 'watering' || (cup.state === 'due' && holdingWater(cup).length === 0));
    if (now.length > 0) return text.bench.nextNow(now);
    const waiting = names((cup) => cup.state === 'due');
    if (waiting.length > 0) {
      const limits = waiting.map((name) => nameOfLimit(holdingWater(bench.cups.get(name))[0].code));
      const first = Math.min(...waiting.map((name) => waterMs(bench.cups.get(name)) ?? Infinity));
      return text.bench.nextWaits(waiting, [...new Set(limits)], first > bench.now && first < Infinity ? u.near(first, bench.now) : null);
    }
    const coming = [...bench.cups.values()]
      .filter((cup) => ['steady', 'held'].includes(cup.state) && waterMs(cup) !== null)
      .sort((a, b) => waterMs(a) - waterMs(b))[0];
    if (!coming) return text.bench.nextNone;
    return text.bench.nextIn(coming.cup, u.near(waterMs(coming), bench.now), u.span(waterMs(coming) - bench.now));
  }

  /** Who held the bench: asked once for each hold, of the host's orders. */
  const holder = { untilMs: null, by: null };

  function heldWholeWords(bench) {
    const untilMs = heldUntilMs(bench);
    if (holder.untilMs === null || Math.abs(untilMs - holder.untilMs) > SAME_HOLD_MS) {
      holder.untilMs = untilMs;
      holder.by = null;
      api
        .orders(benchName)
        .then((orders) => {
          const hold = orders.find(
            (order) => order.kind === 'hold' && !order.cup && !order.cups && order.receipts?.at(-1)?.outcome === 'done',
          );
          holder.by = hold?.by ?? null;
          update();
        })
        .catch(() => {}); // Until when is told all the same.
    }
    return text.bench.heldWhole(Number.isFinite(untilMs) ? u.dayTime(untilMs) : null, holder.by);
  }

  function heldWords(bench) {
    const holds = bench.status?.holds ?? [];
    if (isHeldWhole(bench)) return `${text.bench.heldAll}. ${heldWholeWords(bench)}`;
    const held = new Set(holds);
    for (const cup of bench.cups.values()) if (cup.state === 'held') held.add(cup.cup);
    return held.size === 0 ? text.bench.heldNone : text.list([...held].sort(compareNames));
  }

  function tellFacts(bench) {
    const status = bench.status;
    const climate = [
      status?.air_c !== null && status?.air_c !== undefined ? `${text.bench.air} ${u.temp(status.air_c)}` : null,
      status?.rh_pct !== null && status?.rh_pct !== undefined ? `${u.number(status.rh_pct)} % RH` : null,
      status?.root_c !== null && status?.root_c !== undefined ? `${text.bench.root} ${u.temp(status.root_c)}` : null,
      status?.outdoor_c !== null && status?.outdoor_c !== undefined ? `${text.bench.outdoors} ${u.temp(status.outdoor_c)}` : null,
    ]
      .filter(Boolean)
      .join(', ');
    const tanks = Object.entries(status?.tank_ml ?? {})
      .map(([name, ml]) => `${name} ${u.tank(ml)}`)
      .join(', ');
    const rows = [
      [text.bench.next, nextWords(bench)],
      [text.bench.held, heldWords(bench)],
      [text.bench.climate, climate || text.bench.unread],
      [text.bench.tanks, tanks || text.bench.tanksUnknown],
    ];
    const without = runsWithout(bench);
    if (without.length > 0) rows.push([text.bench.without, without.join(' ')]);
    while (facts.children.length > rows.length) facts.lastChild.remove();
    while (facts.children.length < rows.length) facts.append(h('div', null, h('dt'), h('dd')));
    rows.forEach(([term, words], i) => {
      setText(facts.children[i].firstChild, term);
      setText(facts.children[i].lastChild, words);
    });
  }

  const because = (bench, cause) => {
    const limit = commonLimit(bench, cause);
    return limit ? ` ${text.alerts.allHeldBy(nameOfLimit(limit))}` : '';
  };

  /** What concerns the bench or many cups at once; the rest stands on its cup's own card. */
  function tellAlerts(bench) {
    const causes = alertsByCause(bench.alerts).filter((cause) => cause.alerts.length > MANY || !cause.alerts[0].cup);
    const lines = causes.map((cause) => {
      const named = cause.alerts
        .map((alert) => alert.cup)
        .filter(Boolean)
        .sort(compareNames);
      return h(
        'li',
        { 'data-code': cause.code },
        h('strong', null, nameOfAlert(cause.code)),
        named.length > 0 ? `: ${text.list(named)}. ` : cause.tank ? `: ${text.alerts.forTank(cause.tank)}. ` : '. ',
        cause.alerts[0].do ?? '',
        because(bench, cause),
        cause.alerts.every((alert) => alert.acknowledged) ? ` (${text.alerts.seenShort})` : '',
      );
    });
    const key = JSON.stringify(bench.alerts);
    if (alertLine.dataset.key === key) return;
    alertLine.dataset.key = key;
    alertLine.replaceChildren(...lines);
    alertLine.hidden = lines.length === 0;
  }

  function update() {
    const bench = store.bench(benchName);
    if (!bench) return;
    cardsOf(bench);
    arrange();
    tellHeadline(bench);
    tellFacts(bench);
    tellAlerts(bench);
    tellWays(bench);
    tellChosen(bench);
  }

  /** What has changed and is not shown yet: the newest status and the new weights of each cup. */
  const stale = new Map();
  let frame = null;

  function staleOf(name) {
    if (!stale.has(name)) stale.set(name, { status: null, weights: [] });
    return stale.get(name);
  }

  /** A bench of two hundred is shown a few milliseconds in each frame, so that none is dropped. */
  function showSome() {
    frame = null;
    const bench = store.bench(benchName);
    if (!bench) return;
    const until = performance.now() + BUDGET_MS;
    for (const [name, news] of stale) {
      stale.delete(name);
      const card = cards.get(name);
      if (news.status) card?.show(bench, news.status);
      news.weights.forEach((word) => card?.spark.add(word.at, word.mass_g));
      if (performance.now() > until) break;
    }
    if (stale.size > 0) showLater();
    else {
      arrange();
      tellHeadline(bench);
      tellFacts(bench);
      tellWays(bench);
      tellChosen(bench);
    }
  }

  let forecastsOf = -Infinity;

  /** "Due in" counts down by the bench's time, also where nothing else is new of a cup. */
  function tellForecasts(bench) {
    if (bench.now - forecastsOf < FORECASTS_EVERY_MS) return;
    forecastsOf = bench.now;
    look(benchName, bench.now);
    cards.forEach((card) => card.tellForecast(bench));
  }

  function showLater() {
    frame ??= requestAnimationFrame(showSome);
  }

  function onChange(changes) {
    const bench = store.bench(benchName);
    if (!bench) return;
    const mine = changes.all || changes.benches.has(benchName);
    if (!mine) return;
    const own = [...changes.cups.values()].filter((change) => change.bench === benchName);
    const turned = own.some((change) => change.before?.state !== change.cup.state);
    const more = changes.events.some(({ bench: name, event }) => name === benchName && event.kind === 'alert');
    // What may be trouble is shown at once, with all that changed before it.
    if (changes.all || turned || more || own.some((change) => !cards.has(change.cup.cup))) update();
    else
      own.forEach((change) => {
        staleOf(change.cup.cup).status = change.cup;
      });
    tellForecasts(bench);
    for (const word of changes.weights) if (word.bench === benchName && cards.has(word.cup)) staleOf(word.cup).weights.push(word);
    showLater();
  }

  /** After the cups: what is new is asked for only where there was a look before. */
  async function tellNews() {
    const bench = store.bench(benchName);
    if (!bench) return;
    look(benchName, bench.now);
    const since = newsSince(benchName, bench.now);
    if (since === null) return;
    try {
      const panel = await (await import('./news-panel.js')).newsPanel(benchName, since);
      if (panel) news.replaceChildren(panel);
    } catch {
      // What is open stands on the cards all the same.
    }
  }

  update();
  setTimeout(tellNews);
  return {
    el,
    title: text.bench.title(benchName),
    heading: headline,
    onChange,
    leave() {
      cancelAnimationFrame(frame);
      sight.disconnect();
    },
  };
}
