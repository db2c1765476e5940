// The small weight curve of a cup's card: the last two days, read when the card first comes into sight.

import * as api from './api.js';
import { s, setAttr } from './dom.js';
import { massAt } from './reading.js';

const SPAN_S = 48 * 3600;
const WIDTH = 120;
const HEIGHT = 36;
const MOST_POINTS = 160;
const AT_ONCE = 4;

const waiting = [];
let running = 0;

function inTurn(task) {
  return new Promise((resolve) => {
    waiting.push(() => task().then(resolve, () => resolve(null)));
    next();
  });
}

function next() {
  while (running < AT_ONCE && waiting.length > 0) {
    running += 1;
    waiting
      .shift()()
      .finally(() => {
        running -= 1;
        next();
      });
  }
}

/** Keeps first, last and evenly chosen points between. */
function thinned(at, mass) {
  const step = Math.max(1, at.length / MOST_POINTS);
  const points = [];
  for (let i = 0; i < at.length; i += step) points.push([at[Math.floor(i)], mass[Math.floor(i)]]);
  return points;
}

export class Spark {
  constructor(bench, cup) {
    this.bench = bench;
    this.cup = cup;
    this.points = [];
    this.curve = s('path', { class: 's-curve' });
    this.due = s('path', { class: 's-due' });
    this.el = s(
      'svg',
      { class: 'spark', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, preserveAspectRatio: 'none', 'aria-hidden': 'true', focusable: 'false' },
      this.due,
      this.curve,
    );
    this.asked = false;
    this.seen = false;
  }

  /** The card came into sight, or left it. */
  inSight(seen, bench) {
    this.seen = seen;
    if (seen && !this.asked) {
      this.asked = true;
      const from = new Date(bench.now - SPAN_S * 1000);
      inTurn(() => api.weights(this.bench, this.cup.cup, from)).then((weights) => {
        if (weights) {
          // What came live meanwhile is in the answer too, up to its last point.
          const last = weights.at.at(-1) ?? -Infinity;
          this.points = [...thinned(weights.at, weights.mass_g), ...this.points.filter(([at]) => at > last)];
        }
        this.draw();
      });
    }
    if (seen) this.draw();
  }

  add(at, massG) {
    const last = this.points.at(-1);
    if (last && at <= last[0]) return;
    // Between two kept points there is at least a fair share of the span; the last one moves on.
    const before = this.points.at(-2);
    if (before && last && at - before[0] < SPAN_S / MOST_POINTS) this.points[this.points.length - 1] = [at, massG];
    else this.points.push([at, massG]);
    while (this.points.length > 2 && this.points[1][0] < at - SPAN_S) this.points.shift();
    if (this.seen) this.draw();
  }

  draw() {
    if (this.points.length < 2) return;
    const end = this.points.at(-1)[0];
    const start = Math.max(this.points[0][0], end - SPAN_S);
    const masses = this.points.map((point) => point[1]);
    const dueMass = massAt(this.cup, this.cup.due);
    const high = Math.max(...masses, massAt(this.cup, this.cup.refill));
    const low = Math.min(...masses, dueMass);
    const x = (at) => (((at - start) / Math.max(1, end - start)) * WIDTH).toFixed(1);
    const y = (mass) => (2 + ((high - mass) / Math.max(1, high - low)) * (HEIGHT - 4)).toFixed(1);
    setAttr(this.curve, 'd', `M${this.points.map(([at, mass]) => `${x(at)} ${y(mass)}`).join('L')}`);
    setAttr(this.due, 'd', `M0 ${y(dueMass)}H${WIDTH}`);
  }
}
