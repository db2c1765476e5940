// What this page knows of every bench. "Now" of a bench is the newest time in its own data, never this
// device's clock: a bench may run fast (the demo), or have been silent for a week.

import * as api from './api.js';
import { keyOfAlert } from './reading.js';
import { learn } from './tables.js';

const RETRY_MS = 3000;

/** One bench as last heard of. */
export class BenchModel {
  constructor(name) {
    this.name = name;
    this.presence = null;
    this.status = null;
    this.cups = new Map();
    this.alerts = [];
    this.now = -Infinity;
    this.heardAt = null; // device clock, ms, of the last word that came live
    this.chosen = new Set(); // cups that one order is meant for
    this.setup = null; // vessels, mixes, feeds, tanks, cups; null until they are told
  }

  tell(at) {
    const ms = typeof at === 'number' ? at * 1000 : Date.parse(at);
    if (ms > this.now) this.now = ms;
  }

  alertsOf(cup) {
    return this.alerts.filter((alert) => alert.cup === cup);
  }

  /** Open alerts that nobody has marked as seen. */
  unseen() {
    return this.alerts.filter((alert) => !alert.acknowledged);
  }

  applyAlert(notice) {
    const same = (other) => keyOfAlert(other) === keyOfAlert(notice);
    const before = this.alerts.find(same);
    this.alerts = this.alerts.filter((other) => !same(other));
    if (notice.state === 'cleared') return;
    // Seen is seen as long as it is the same trouble; a warning that becomes one is another.
    const seen = before?.since === notice.since && before?.state === notice.state ? before.acknowledged : undefined;
    this.alerts.push(seen ? { ...notice, acknowledged: seen } : notice);
  }
}

/** All benches, and whoever wants to hear of changes (at most once a frame). */
class Store {
  constructor() {
    this.benches = new Map();
    this.loaded = false;
    this.problem = null;
    this.link = { state: 'connecting', since: Date.now() };
    this.host = null; // whether its store takes what it is given; null until it is told
    this.session = { asks: false, name: null, role: 'act' };
    this.listeners = new Set();
    this.changes = this.nothing();
    this.scheduled = false;
  }

  nothing() {
    return { cups: new Map(), weights: [], events: [], benches: new Set(), link: false, all: false };
  }

  subscribe(listener) {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Whether who looks may give orders, too. */
  mayAct() {
    return this.session.role === 'act';
  }

  bench(name) {
    return this.benches.get(name);
  }

  ensure(name) {
    if (!this.benches.has(name)) {
      this.benches.set(name, new BenchModel(name));
      this.changes.all = true;
    }
    return this.benches.get(name);
  }

  /** Everything anew: at the start and after each reconnect, since words may have been missed. */
  async load() {
    try {
      this.host = await api.host();
      const [listed, session] = await Promise.all([api.benches(), api.session()]);
      this.session = session;
      await Promise.all(listed.map((entry) => this.loadBench(entry)));
      const names = new Set(listed.map((entry) => entry.bench));
      for (const name of this.benches.keys()) if (!names.has(name)) this.benches.delete(name);
      this.loaded = true;
      this.problem = null;
    } catch (error) {
      this.problem = error.message;
      clearTimeout(this.retry);
      this.retry = setTimeout(() => this.load(), RETRY_MS);
    }
    this.changes.all = true;
    this.schedule();
  }

  async loadBench(entry) {
    const bench = this.ensure(entry.bench);
    const [cups, alerts, setup] = await Promise.all([api.cups(entry.bench), api.alerts(entry.bench), api.setup(entry.bench)]);
    bench.presence = entry.presence;
    if (entry.status) {
      bench.status = entry.status;
      bench.tell(entry.status.at);
    }
    bench.cups = new Map(cups.map((cup) => [cup.cup, cup]));
    cups.forEach((cup) => bench.tell(cup.at));
    bench.alerts = alerts;
    bench.setup = setup;
    learn(setup);
  }

  /** The alerts anew, after one was marked as seen. */
  async loadAlerts(name) {
    const bench = this.bench(name);
    bench.alerts = await api.alerts(name);
    this.changes.benches.add(name);
    this.schedule();
  }

  setLink(state) {
    if (this.link.state === state) return;
    this.link = { state, since: Date.now() };
    this.changes.link = true;
    this.schedule();
  }

  /** A word from the live stream. */
  hear(kind, word) {
    if (kind === 'host') {
      this.host = word;
      this.changes.link = true;
      this.schedule();
      return;
    }
    const bench = this.ensure(word.bench);
    bench.heardAt = Date.now();
    if (kind === 'cup') {
      const before = bench.cups.get(word.cup.cup);
      bench.cups.set(word.cup.cup, word.cup);
      bench.tell(word.cup.at);
      this.changes.cups.set(`${word.bench}/${word.cup.cup}`, { bench: word.bench, cup: word.cup, before });
    } else if (kind === 'cup-gone') {
      bench.cups.delete(word.cup);
      this.changes.all = true;
    } else if (kind === 'setup') {
      bench.setup = word.setup;
      learn(word.setup);
      this.changes.all = true;
    } else if (kind === 'weight') {
      bench.tell(word.at);
      this.changes.weights.push(word);
    } else if (kind === 'bench') {
      bench.status = word.status;
      bench.tell(word.status.at);
    } else if (kind === 'presence') {
      bench.presence = word.presence;
    } else if (kind === 'event') {
      bench.tell(word.event.at);
      if (word.event.kind === 'alert') bench.applyAlert(word.event.data);
      this.changes.events.push(word);
    }
    this.changes.benches.add(word.bench);
    this.schedule();
  }

  schedule() {
    if (this.scheduled) return;
    this.scheduled = true;
    // A hidden page gets no frames; it must still not grow its list of changes for hours.
    const later = document.hidden ? (run) => setTimeout(run, 1000) : requestAnimationFrame;
    later(() => {
      this.scheduled = false;
      const changes = this.changes;
      this.changes = this.nothing();
      for (const listener of this.listeners) listener(changes);
    });
  }
}

export const store = new Store();
