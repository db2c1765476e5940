// Orders: picked, told beforehand, sent, and followed to their receipts.

import * as api from './api.js';
import { chooser, nextInRow } from './choice.js';
import { field, freshId, h, regionTable, say, setText } from './dom.js';
import { dayOf } from './days.js';
import { fitting, keysOf, whyNot } from './fitting.js';
import { BACK_BY, before, changeBack, FORGOTTEN_BY, GIVES_FOR, GROUPS, KINDS, kindsOfCup, repeated } from './orders.js';
import { compareNames, strengthWords } from './reading.js';
import { store } from './store.js';
import { liftable, nameOfLimit } from './tables.js';
import { list, text } from './text.js';
import * as u from './units.js';

const t = text.doing;
const HOUR_MS = 3600e3;
const SPANS_H = [6, 24, 72, 168];
const MOST_ML = 20000;
const PLAIN = ''; // in a tank, in place of a feed's name
const MOST_DOSES = 2000;
const MOST_C = 60; // either side of freezing
/** A weight is asked about while it is still the drained one; what was told is taken back within the day. */
const ASKED_FOR_MS = 0.5 * HOUR_MS;
const FORGOTTEN_FOR_MS = 24 * HOUR_MS;

const href = (bench, ...rest) => `#/${[bench, 'do', ...rest].map(encodeURIComponent).join('/')}`;

function select(options, chosen) {
  return h(
    'select',
    null,
    options.map(([value, words]) => h('option', { value, selected: value === chosen }, words)),
  );
}

function radios(legend, options, chosen, changed) {
  const name = freshId('radio');
  const set = h(
    'fieldset',
    { class: 'field' },
    h('legend', null, legend),
    options.map(([value, words]) =>
      h('label', { class: 'check' }, h('input', { type: 'radio', name, value, checked: value === chosen, onchange: changed }), words),
    ),
  );
  return { el: set, read: () => set.querySelector('input:checked')?.value };
}

function check(words, changed, checked = false, cup = null) {
  const input = h('input', { type: 'checkbox', checked, onchange: changed, 'data-cup': cup });
  return { el: h('label', { class: 'check' }, input, words), read: () => (input.checked ? true : undefined) };
}

class FormError extends Error {}

function numberOf(input, label, least, most) {
  const value = Number(input.value.replace(',', '.'));
  if (input.value.trim() === '' || !(value >= least && value <= most))
    throw new FormError(t.badNumber(label, u.number(least), u.number(most)));
  return value;
}

/** Makers of fields; each answers {el, read()} with read giving the order's value or throwing a FormError. */
const MAKERS = {
  cup(context, optional) {
    const names = [...context.bench.cups.keys()].sort(compareNames);
    const none = context.kind === 'release' ? t.field.everyHold : t.field.wholeBench;
    const options = [...(optional ? [['', none]] : []), ...names.map((name) => [name, `${name}, ${context.bench.cups.get(name).plant}`])];
    const input = select(options, context.cup ?? options[0]?.[0]);
    input.addEventListener('change', context.changed);
    return { el: field(t.field.cup, input), read: () => input.value || undefined };
  },
  /** Of the whole bench there are no more cups. */
  more(context) {
    const names = context.cup ? [...context.bench.cups.keys()].filter((name) => name !== context.cup).sort(compareNames) : [];
    const boxes = names.map((name) => ({ name, ...check(name, context.changed, context.more.includes(name), name) }));
    return {
      el: h(
        'details',
        { class: 'field', hidden: names.length === 0, open: context.more.length > 0 },
        h('summary', null, t.field.more),
        chooser(context.bench, context.choose),
        h(
          'div',
          { class: 'row', role: 'group', 'aria-label': t.field.more },
          boxes.map((box) => box.el),
        ),
      ),
      read: () => {
        const chosen = boxes.filter((box) => box.read()).map((box) => box.name);
        return chosen.length > 0 ? chosen : undefined;
      },
    };
  },
  newcup(context) {
    const input = h('input', { type: 'text', value: context.newName ?? '', autocomplete: 'off', oninput: context.changed });
    return { el: field(t.field.cup, input), read: () => required(input.value, t.field.cup), key: 'cup' };
  },
  /** A word of one's own, or one that the bench has already. */
  plant(context) {
    const known = new Set([...context.bench.cups.values()].map((cup) => cup.plant));
    const id = freshId('plants');
    const own = words(context, 'plant', context.was?.plant);
    own.el.querySelector('input').setAttribute('list', id);
    own.el.append(
      h(
        'datalist',
        { id },
        [...known].sort(compareNames).map((plant) => h('option', { value: plant })),
      ),
    );
    return own;
  },
  /** The valve of the same number as the scale hangs at the same place, as benches are wired. */
  scale: (context) => part(context, 'scale', context.bench.setup?.free?.scales, (scale) => context.beside?.(scale)),
  valve(context) {
    const valve = part(context, 'valve', context.bench.setup?.free?.valves);
    const choose = (scale) => {
      const input = valve.el.querySelector('select');
      const like = [...(input?.options ?? [])].find((option) => option.value && numberIn(option.value) === numberIn(scale ?? ''));
      if (input && like) input.value = like.value;
    };
    context.beside = choose;
    choose(context.bench.setup?.free?.scales[0]);
    return valve;
  },
  probe: (context) => part(context, 'probe', context.bench.setup?.free?.probes, undefined, false),
  vessel: (context) =>
    named(
      context,
      'vessel',
      Object.keys(context.bench.setup?.vessels ?? {}),
      (context.was ?? context.bench.setup?.cups?.[context.cup])?.vessel,
    ),
  mix: (context) =>
    named(context, 'mix', Object.keys(context.bench.setup?.mixes ?? {}), (context.was ?? context.bench.setup?.cups?.[context.cup])?.mix),
  struck(context) {
    const input = h('input', {
      type: 'date',
      value: context.was?.struck ?? dayOf(context.bench.now),
      oninput: context.changed,
    });
    return { el: field(t.field.struck, input), read: () => required(input.value, t.field.struck) };
  },
  cutting(context) {
    const input = h('input', { type: 'text', inputmode: 'decimal', value: String(context.was?.cutting_g ?? 10), oninput: context.changed });
    return { el: field(t.field.cutting, input), read: () => `${numberOf(input, t.field.cutting, 0, 500)} g` };
  },
  ml(context) {
    const unit = u.volumeUnit();
    const input = h('input', {
      type: 'text',
      inputmode: 'decimal',
      autocomplete: 'off',
      oninput: context.changed,
    });
    const label = t.field.ml(unit);
    return { el: field(label, input), read: () => Math.round(u.mlFromTyped(numberOf(input, label, 0, u.typedFromMl(MOST_ML))) * 10) / 10 };
  },
  day(context) {
    const input = h('input', { type: 'date', value: u.benchDay(context.bench.now), oninput: context.changed });
    return { el: field(t.field.day, input), read: () => required(input.value, t.field.day) };
  },
  least_c: (context) => temperature(context, t.field.leastC(u.tempUnit())),
  most_c: (context) => temperature(context, t.field.mostC(u.tempUnit())),
  wind(context) {
    const wind = radios(t.field.wind, Object.entries(t.wind), '', context.changed);
    return { el: wind.el, read: () => wind.read() || undefined };
  },
  strength(context) {
    const now = context.kind === 'filled' ? (context.bench.setup?.tanks?.[context.tank]?.strength ?? 0) : 0;
    const input = h('input', { type: 'text', inputmode: 'decimal', value: String(now), oninput: context.changed });
    context.strengthOf = (strength) => (input.value = String(strength));
    return { el: field(t.field.strength, input), read: () => numberOf(input, t.field.strength, 0, 1) };
  },
  lift(context) {
    const boxes = liftable().map((code) => ({ code, ...check(nameOfLimit(code), context.changed) }));
    return {
      el: h(
        'fieldset',
        { class: 'field' },
        h('legend', null, t.field.lift),
        boxes.map((box) => box.el),
      ),
      read: () => {
        const lifted = boxes.filter((box) => box.read()).map((box) => box.code);
        return lifted.length > 0 ? lifted : undefined;
      },
    };
  },
  until(context) {
    const input = h('input', { type: 'datetime-local', value: u.typedMinute(context.bench.now + 24 * HOUR_MS), oninput: context.changed });
    const spans = SPANS_H.map((hours) =>
      h(
        'button',
        {
          type: 'button',
          onclick: () => {
            input.value = u.typedMinute(context.bench.now + hours * HOUR_MS);
            context.changed();
          },
        },
        t.span[hours],
      ),
    );
    return {
      el: h('div', null, h('div', { class: 'row' }, spans), field(t.field.until, input, t.untilHint)),
      read: () => {
        const at = new Date(u.msFromTyped(input.value));
        if (!(at.getTime() > context.bench.now)) throw new FormError(t.badUntil);
        return at.toISOString().replace('.000', '');
      },
    };
  },
  feed_only: (context) => check(t.field.feedOnly, context.changed),
  rescue: (context) => check(t.field.rescue, context.changed),
  stage(context) {
    const stages = new Set([context.cup, ...context.more].map((name) => context.bench.cups.get(name)?.stage));
    const now = context.was?.stage ?? (stages.size === 1 ? [...stages][0] : null);
    return radios(t.field.stage, Object.entries(text.stageSeen), context.kind === 'add' ? (now ?? 'struck') : now, context.changed);
  },
  tank(context) {
    const names = Object.keys(context.bench.status?.tank_ml ?? context.bench.setup?.tanks ?? {});
    context.tank ??= names[0];
    const tank = named(context, 'tank', names, context.tank);
    tank.el.addEventListener('change', () => {
      context.tank = tank.el.querySelector('select')?.value;
      context.poured?.();
    });
    return tank;
  },
  /** What is in the tank from now on: as before, until a person says otherwise. */
  feed(context) {
    const now = () => context.bench.setup?.tanks?.[context.tank]?.feed ?? PLAIN;
    const feeds = Object.keys(context.bench.setup?.feeds ?? {});
    const input = select([[PLAIN, text.tanks.plain], ...feeds.map((feed) => [feed, feed])], now());
    input.addEventListener('change', context.changed);
    context.poured = () => {
      input.value = now();
      context.strengthOf?.(context.bench.setup?.tanks?.[context.tank]?.strength ?? 0);
      context.changed();
    };
    return { el: field(t.field.feed, input), read: () => (input.value === PLAIN ? undefined : input.value) };
  },
  /** Each key under the part of the bench file that it stands in; the field after it is written anew with its value. */
  key(context) {
    const own = keysOf(context.bench, context.cup);
    const keys = own.length > 0 ? own : (context.bench.setup?.keys ?? []);
    context.first = keys.find(({ path }) => path.endsWith('.plant') && own.length > 0) ?? keys[0];
    if (keys.length === 0) return { el: h('p', { class: 'stop' }, t.noKeys), read: () => required('', t.field.key), key: 'path' };
    const parts = new Map();
    for (const { path } of keys) {
      const part = path.split('.')[0];
      parts.set(part, [...(parts.get(part) ?? []), path]);
    }
    const input = h(
      'select',
      null,
      [...parts].map(([part, paths]) =>
        h(
          'optgroup',
          { label: part },
          paths.map((path) => h('option', { value: path, selected: path === context.first.path }, path)),
        ),
      ),
    );
    input.addEventListener('change', () => {
      context.chosen?.(valueOf(context, input.value));
      context.changed();
    });
    return { el: field(t.field.key, input), read: () => ({ path: input.value, from: valueOf(context, input.value) }), spread: true };
  },
  to(context) {
    const input = h('input', { type: 'text', autocomplete: 'off', value: context.first?.value ?? '', oninput: context.changed });
    context.chosen = (value) => (input.value = value);
    return { el: field(t.field.to, input), read: () => required(input.value, t.field.to) };
  },
  because: (context) => radios(t.field.because, Object.entries(t.because), null, context.changed),
  confirm(context) {
    const box = check(t.confirm(list([context.cup ?? t.field.cup, ...context.more])), context.changed);
    return {
      el: box.el,
      read: () => {
        if (!box.read()) throw new FormError(t.confirmNeeded);
        return undefined;
      },
    };
  },
};

const numberIn = (name) => name.replace(/\D/g, '');

/** A part of the board that is free: the first one, or none where it is seldom wanted. Nothing is asked where the bench has no board. */
function part(context, key, free, chose = (_name) => {}, usual = true) {
  if (!free) return { el: h('div', { hidden: true }), read: () => undefined };
  if (free.length === 0) return { el: h('p', { class: 'quiet', hidden: !usual }, t.noneFree[key]), read: () => undefined };
  const input = select([...free.map((name) => [name, name]), ['', t.noPart]], usual ? free[0] : '');
  input.addEventListener('change', () => {
    chose(input.value);
    context.changed();
  });
  return { el: field(t.field[key], input), read: () => input.value || undefined };
}

const valueOf = (context, path) => context.bench.setup?.keys?.find((key) => key.path === path)?.value;

function required(value, label) {
  if (!value.trim()) throw new FormError(t.missing(label));
  return value.trim();
}

function temperature(context, label) {
  const input = h('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', oninput: context.changed });
  const most = u.tempValue(MOST_C);
  return {
    el: field(label, input),
    read: () => Math.round(u.cFromTyped(numberOf(input, label, u.tempValue(-MOST_C), most)) * 10) / 10,
  };
}

function words(context, key, value) {
  const input = h('input', { type: 'text', value: value ?? '', oninput: context.changed });
  return { el: field(t.field[key], input), read: () => required(input.value, t.field[key]) };
}

/** A choice among known names, or a free field where the bench has not told them. */
function named(context, key, names, chosen, optional = false) {
  const known = names.filter(Boolean);
  const input =
    known.length > 0
      ? select(
          names.map((name) => [name, name || '–']),
          chosen,
        )
      : h('input', { type: 'text', autocomplete: 'off' });
  input.addEventListener('input', context.changed);
  return {
    el: field(t.field[key], input),
    read: () => (optional && !input.value.trim() ? undefined : required(input.value, t.field[key])),
  };
}

/** `recent()` answers the orders that are known, newest first; `sent(id)` hears of one that went. */
function orderForm(benchName, kind, [cupName, ...more], { tank, like }, recent, sent) {
  const bench = store.bench(benchName);
  const spec = KINDS[kind];
  const aheadList = h('ul', { class: 'says', 'aria-live': 'polite' });
  const error = h('p', { class: 'error', role: 'alert' });
  const fields = new Map();
  const place = h('div');
  let asked = null; // the order that was questioned, as text
  const context = {
    bench,
    kind,
    cup: cupName,
    tank,
    more,
    newName: like ? nextInRow(bench, like) : cupName,
    was: like ? bench.setup?.cups?.[like] : undefined,
    changed: () => ahead(),
    choose: (names) => choose(names),
  };

  /** Fields that are there stay, where they are not to be made anew. */
  function build(anew = false) {
    if (!context.cup && spec.fields.includes('cup')) context.cup = [...bench.cups.keys()].sort(compareNames)[0];
    for (const word of spec.fields) {
      const key = word.replace('?', '');
      const before = fields.get(key);
      // The cup is the one that changed, and has the focus; where it may be left out, only the list of others is its.
      if (before && !anew && (key === 'cup' || (key !== 'more' && !spec.fields.includes('cup')))) continue;
      fields.set(key, { optional: word.endsWith('?'), ...MAKERS[key](context, word.endsWith('?')) });
      if (before) before.el.replaceWith(fields.get(key).el);
      else place.append(fields.get(key).el);
    }
  }

  /** The order as it stands; strict: throws at the first field that will not do. */
  function read(strict) {
    /** @type {Record<string, any>} */
    const order = { kind };
    for (const [key, each] of fields) {
      try {
        const value = each.read();
        if (strict && value === undefined && !each.optional && key !== 'confirm') throw new FormError(t.missing(t.field[key] ?? key));
        if (each.spread) Object.assign(order, value);
        else if (value !== undefined) order[each.key ?? key] = value;
      } catch (problem) {
        if (strict || !(problem instanceof FormError)) throw problem;
      }
    }
    if (strict && kind === 'filled' && order.strength > 0 !== Boolean(order.feed))
      throw new FormError(order.feed ? t.feedNeedsStrength : t.plainHasNone);
    const { more, ...one } = order;
    if (!more) return one;
    const { cup, ...rest } = one;
    return { ...rest, cups: [cup, ...more].sort(compareNames) };
  }

  function ahead() {
    const chosen = fields.get('cup')?.read();
    const moreBefore = context.more.join();
    context.more = (fields.get('more')?.read() ?? []).filter((name) => chosen && name !== chosen);
    if (chosen !== context.cup && (spec.fields.includes('cup') || spec.fields.includes('more?'))) {
      context.cup = chosen; // Amounts, stage and confirmation are those of the cup.
      build();
    } else if (fields.has('confirm') && context.more.join() !== moreBefore) {
      const before = fields.get('confirm'); // Whoever ticks it has read for which cups.
      fields.set('confirm', { ...before, ...MAKERS.confirm(context) });
      before.el.replaceWith(fields.get('confirm').el);
    }
    const order = read(false);
    const lines = before(kind, store.bench(benchName), order);
    const key = JSON.stringify(lines);
    if (aheadList.dataset.key === key) return;
    aheadList.dataset.key = key;
    aheadList.replaceChildren(...lines.map((each) => h('li', { class: each.tone || null }, each.words)));
  }

  /** These in place of those before; of the whole bench, or of one cup, where it is none. */
  function choose([first, ...others]) {
    if (!first && spec.fields.includes('cup')) others = [];
    context.cup = first ?? (spec.fields.includes('cup') ? context.cup : undefined);
    context.more = others;
    for (const key of ['cup', 'more']) {
      const before = fields.get(key);
      const optional = key === 'more' || spec.fields.includes('cup?');
      fields.set(key, { optional, ...MAKERS[key](context, optional) });
      before.el.replaceWith(fields.get(key).el);
    }
    fields.get('more').el.open = true;
    ahead();
  }

  /** A cup that was taken out is put back as what it was. */
  async function takeBack() {
    try {
      const was = (await api.cuttings(benchName)).filter((cutting) => cutting.cup === cupName).at(-1);
      if (!was) return;
      context.was = was;
      build(true);
      ahead();
    } catch (problem) {
      setText(error, t.wasUnknown(cupName, problem.message));
    }
  }

  const refusal = store.mayAct() ? null : h('p', { class: 'refusal', id: freshId('refusal') }, text.session.lookOnly(store.session.name));
  const button = h('button', { type: 'submit', class: 'main', disabled: refusal !== null, 'aria-describedby': refusal?.id }, t.send);
  const el = h(
    'form',
    {
      class: 'panel',
      novalidate: true,
      onsubmit: async (event) => {
        event.preventDefault();
        setText(error, '');
        try {
          const order = read(true);
          const repeat = repeated(store.bench(benchName).now, recent(), order);
          if (repeat && asked !== JSON.stringify(order)) {
            asked = JSON.stringify(order);
            throw new FormError(repeat);
          }
          asked = null;
          button.disabled = true;
          const { id } = await api.order(benchName, order);
          say(t.sent(t.kind[kind]));
          bench.chosen.clear();
          sent(id);
        } catch (problem) {
          setText(error, problem instanceof FormError ? problem.message : t.failed(problem.message));
        } finally {
          button.disabled = refusal !== null;
        }
      },
    },
    h('p', null, t.says[kind]),
    refusal,
    place,
    h('h2', null, spec.group === 'water' || kind === 'hold' ? t.before : t.beforeOther),
    aheadList,
    h('p', { class: 'quiet' }, t.beforeNote),
    error,
    h('p', { class: 'row' }, button),
  );
  build();
  ahead();
  if (kind === 'add' && cupName && !like) takeBack();
  return { el, ahead };
}

function orderWords(order, setup) {
  const bench = order.tank ?? (KINDS[order.kind]?.fields.includes('cup?') ? t.field.wholeBench : '');
  const parts = [order.cups ? list(order.cups) : (order.cup ?? bench)];
  if (order.kind === 'change') return t.changed(order.path, order.from, order.to);
  if (order.kind === 'weather')
    parts.push(t.weatherWords(order.day ?? '', u.temp(order.least_c), u.temp(order.most_c)), t.wind[order.wind]);
  if (order.kind === 'prime') parts.push(order.tank);
  if (order.ml !== undefined) parts.push(order.tank && !order.cup ? u.tank(order.ml) : u.volume(order.ml));
  if (order.kind === 'filled') parts.push(order.feed ?? (order.strength > 0 ? setup?.tanks?.[order.tank]?.feed : text.tanks.plain));
  if (order.strength) parts.push(`× ${strengthWords(setup, order.strength)}`);
  if (order.until) parts.push(u.dayTime(Date.parse(order.until)));
  if (order.stage) parts.push(text.stage[order.stage] ?? order.stage);
  if (order.because) parts.push(t.because[order.because] ?? order.because);
  if (order.vessel) parts.push(`${order.vessel}, ${order.mix}`);
  return parts.filter(Boolean).join(', ');
}

/** Orders and what became of them, newest first, each with its way back. */
function receiptsPanel(benchName) {
  const list = h('tbody');
  let known = [];
  const state = h('p', { class: 'quiet', role: 'status' });
  const table = regionTable(t.receipts, null, list);
  const el = h('section', { class: 'panel' }, h('h2', null, t.receipts), state, table);

  /** Passes given for orders, since the oldest order that is shown. */
  async function passesFor(orders) {
    const giving = orders.filter((order) => GIVES_FOR[order.kind]);
    if (giving.length === 0) return [];
    const from = new Date(Math.min(...giving.map((order) => Date.parse(order.issued))));
    const events = await api.events(benchName, { kind: 'dose', from, limit: MOST_DOSES });
    return events.filter((event) => Object.values(GIVES_FOR).includes(event.data.why));
  }

  async function load() {
    try {
      const orders = await api.orders(benchName);
      known = orders;
      const passes = await passesFor(orders);
      setText(state, orders.length === 0 ? t.noOrders : '');
      table.hidden = orders.length === 0;
      list.replaceChildren(...orders.map((order) => row(order, orders, became(order, orders, passes))));
    } catch (error) {
      setText(state, t.receiptsFailed(error.message));
    }
  }

  /** "30 mL given in 2 passes": what came of an order that gives water, up to the next one like it. */
  function became(order, orders, passes) {
    const why = GIVES_FOR[order.kind];
    if (!why || !order.receipts?.some((receipt) => receipt.outcome !== 'refused')) return '';
    const issued = Date.parse(order.issued);
    const places = (each) => each.cups ?? [each.cup];
    const like = (other) =>
      (other.kind === order.kind || other.kind === 'prime') && places(other).some((cup) => places(order).includes(cup));
    const next = Math.min(
      ...orders.filter((other) => like(other) && Date.parse(other.issued) > issued).map((other) => Date.parse(other.issued)),
    );
    const own = passes.filter(
      (event) =>
        places(order).includes(event.cup) && event.data.why === why && Date.parse(event.at) >= issued && Date.parse(event.at) < next,
    );
    return ` ${t.became(own.length, u.volume(own.reduce((sum, event) => sum + event.data.plain_ml + event.data.feed_ml, 0)))}`;
  }

  /** Sends an order that stands beside another's receipt, without a form. */
  async function send(order, button) {
    button.disabled = true;
    try {
      await api.order(benchName, order);
      say(t.sent(t.kind[order.kind]));
      await load();
    } catch (problem) {
      button.disabled = false;
      setText(state, t.failed(problem.message));
    }
  }

  const oneStep = (words, order) =>
    h('button', { type: 'button', disabled: !store.mayAct(), onclick: (event) => send(order, event.currentTarget) }, words);

  /** A drained weight far from what was believed: both are told, and whether to learn it is asked. */
  function question(order, orders, last) {
    const capacity = last?.outcome === 'refused' && order.kind === 'drained' ? last.capacity : null;
    if (!capacity || store.bench(benchName).now - Date.parse(order.issued) > ASKED_FOR_MS) return null;
    const newer = orders.slice(0, orders.indexOf(order));
    if (newer.some((other) => other.kind === 'drained' && other.cup === order.cup)) return null;
    return [
      h('p', null, t.learnAllTheSame(u.mass(capacity.weighed_g), u.mass(capacity.believed_g), t.taughtBy[capacity.by])),
      oneStep(t.learnIt, { kind: 'drained', cup: order.cup, sure: true }),
    ];
  }

  /** What was told and is not so is taken back here; after a day, or for other orders, another order is the way. */
  function wayBack(order, orders) {
    const forgets = orders.find(
      (other) => other.kind === 'forget' && other.order === order.id && other.receipts?.at(-1)?.outcome !== 'refused',
    );
    if (forgets) return t.takenBack;
    if (FORGOTTEN_BY.includes(order.kind) && store.bench(benchName).now - Date.parse(order.issued) < FORGOTTEN_FOR_MS) {
      return oneStep(t.takeBack, { kind: 'forget', order: order.id });
    }
    if (order.kind === 'change') return oneStep(t.undo.change, changeBack(order));
    const back = BACK_BY[order.kind];
    return back && t.undo[order.kind]
      ? h(
          'a',
          { href: href(benchName, back, ...(order.cups || order.cup ? [(order.cups ?? [order.cup]).join(',')] : [])) },
          t.undo[order.kind],
        )
      : null;
  }

  /** An order that takes another back is told by that one's words. */
  function rowWords(order, orders) {
    const meant = order.kind === 'forget' ? orders.find((other) => other.id === order.order) : null;
    const setup = store.bench(benchName).setup;
    return meant ? `${t.kind[meant.kind]}, ${orderWords(meant, setup)}` : orderWords(order, setup);
  }

  /** Of an order to several cups, what was said of each. */
  function eachWords(receipt) {
    const told = (receipt?.cups ?? []).filter((each) => each.why);
    return told.length > 1 ? ` ${told.map((each) => `${each.cup}: ${each.why}.`).join(' ')}` : '';
  }

  function row(order, orders, came) {
    const last = order.receipts?.at(-1);
    const expired = !last && order.expires && Date.parse(order.expires) < store.bench(benchName).now;
    const outcome = last?.outcome ?? (expired ? 'expired' : 'waiting');
    const dry = (order.receipts ?? []).flatMap((receipt) => receipt.dry_before ?? []);
    return h(
      'tr',
      { 'data-order': order.id },
      h('td', null, u.dayTime(Date.parse(order.issued))),
      h('td', null, h('strong', null, t.kind[order.kind] ?? order.kind), ' ', rowWords(order, orders)),
      h(
        'td',
        { class: outcome === 'refused' ? 'error' : null },
        t.outcome[outcome] ?? outcome,
        last?.why ? `: ${last.why}` : '',
        eachWords(last),
        came,
        dry.length > 0 ? ` ${t.dryReceipt(dry)}` : '',
      ),
      h('td', null, question(order, orders, last), last && outcome !== 'refused' ? wayBack(order, orders) : null),
    );
  }
  load();
  return { el, load, orders: () => known };
}

/** `how`: "like" makes a new cup of those that are named. */
export function doingView(benchName, kind, named, how) {
  const known = kind && KINDS[kind];
  const ofTank = known && KINDS[kind].fields[0] === 'tank';
  const names = ofTank ? [] : (named?.split(',') ?? []);
  const cupName = names.length === 1 ? names[0] : null;
  const heading = h('h1', { class: 'headline', tabindex: '-1' }, known ? t.kind[kind] : t.pick);
  const receipts = receiptsPanel(benchName);
  const bench = store.bench(benchName);
  const benchHref = `#/${encodeURIComponent(benchName)}`;
  const backHref = cupName ? `${benchHref}/cup/${encodeURIComponent(cupName)}` : names.length > 1 ? benchHref : href(benchName);
  let form = null;
  const el = h(
    'section',
    { class: 'view' },
    known
      ? h(
          'p',
          { class: 'cup-top' },
          h('a', { class: 'button', href: backHref }, cupName ? `← ${cupName}` : names.length > 1 ? `← ${text.cup.back}` : `← ${t.title}`),
        )
      : null,
    heading,
  );
  if (known && (bench.cups.size > 0 || !KINDS[kind].fields.includes('cup'))) {
    const like = how === 'like' ? cupName : null;
    form = orderForm(benchName, kind, names, { tank: ofTank ? named : undefined, like }, receipts.orders, () => {
      receipts.load();
      receipts.el.scrollIntoView({ block: 'nearest' });
    });
    el.append(h('div', { class: 'panels even' }, form.el, receipts.el));
  } else {
    if (!store.mayAct()) el.append(h('p', { class: 'refusal' }, text.session.lookOnly(store.session.name)));
    const names = [...bench.cups.keys()];
    const idle = names.length === 0 ? [] : kindsOfCup().filter((each) => fitting(each, bench, names).length === 0);
    const card = (each, says) =>
      h('li', null, h('a', { href: href(benchName, each) }, h('strong', null, t.kind[each]), h('span', null, says)));
    for (const group of GROUPS) {
      const kinds = Object.keys(KINDS).filter((each) => KINDS[each].group === group && !idle.includes(each));
      const cards = kinds.map((each) => card(each, t.says[each]));
      if (group === 'bench')
        cards.push(
          h('li', null, h('a', { href: `${benchHref}/file` }, h('strong', null, text.file.title), h('span', null, text.file.says))),
        );
      if (cards.length > 0) el.append(h('h2', null, t.groups[group]), h('ul', { class: 'actions' }, cards));
    }
    if (idle.length > 0)
      el.append(
        h(
          'details',
          null,
          h('summary', null, t.notForAny(idle.length)),
          h(
            'ul',
            { class: 'actions' },
            idle.map((each) => card(each, whyNot(each, bench, bench.cups.get(names[0])))),
          ),
        ),
      );
    el.append(receipts.el);
  }
  return {
    el,
    title: known ? t.kind[kind] : t.title,
    heading,
    onChange(changes) {
      if (
        changes.all ||
        changes.events.some(
          ({ bench: name, event }) =>
            name === benchName &&
            (event.kind === 'receipt' || (event.kind === 'dose' && Object.values(GIVES_FOR).includes(event.data.why))),
        )
      )
        receipts.load();
      if (form && changes.cups.size > 0) form.ahead();
      for (const { event } of changes.events) {
        if (event.kind === 'receipt')
          say(`${t.outcome[event.data.outcome] ?? event.data.outcome}${event.data.why ? `: ${event.data.why}` : ''}.`);
      }
    },
  };
}
