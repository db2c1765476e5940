// Dry-downs cut out of a weight curve, and the curve W = c + A exp(-k t) laid through them.

const CLUSTER_S = 3 * 3600; // passes closer than this are one watering
const SETTLE_S = 30 * 60; // water still drains and spreads
const LEAST_HOURS = 6;
const LEAST_POINTS = 5;
const RISE_G = 3; // a rise between two readings that no dose explains: watered by hand, or leaned on
const DROP_PART = 0.15; // a fall of this part between two readings: lifted
const LEAST_K_SPAN = 1.5; // below it the end weight cannot be told from the data

/** When each watering ended and when the next began, epoch seconds. */
function waterings(doseTimes) {
  const clusters = [];
  for (const at of [...doseTimes].sort((a, b) => a - b)) {
    const last = clusters.at(-1);
    if (last && at - last.end <= CLUSTER_S) last.end = at;
    else clusters.push({ begin: at, end: at });
  }
  return clusters;
}

/** Dry-downs [{from, to, hours, massG}] between waterings; broken off where the cup rose or was lifted. */
export function dryDowns(at, massG, doseTimes) {
  const breaks = waterings(doseTimes);
  const found = [];
  let current = null;
  let next = 0;
  const close = () => {
    if (current && current.hours.length >= LEAST_POINTS && current.hours.at(-1) >= LEAST_HOURS) found.push(current);
    current = null;
  };
  for (let i = 0; i < at.length; i += 1) {
    while (next < breaks.length && at[i] > breaks[next].end + SETTLE_S) {
      close();
      next += 1;
    }
    const watering = next < breaks.length && at[i] >= breaks[next].begin;
    const mass = massG[i];
    if (watering || mass === null) {
      close();
      continue;
    }
    const last = current?.massG.at(-1);
    if (current && (mass - last > RISE_G || last - mass > DROP_PART * last)) close();
    current ??= { from: at[i], to: at[i], hours: [], massG: [] };
    current.hours.push((at[i] - current.from) / 3600);
    current.massG.push(mass);
    current.to = at[i];
  }
  close();
  return found;
}

/** Least squares for c and A at a given k, and what is left over. */
function atRate(hours, massG, k) {
  const e = hours.map((hour) => Math.exp(-k * hour));
  const n = hours.length;
  const meanE = e.reduce((a, b) => a + b) / n;
  const meanW = massG.reduce((a, b) => a + b) / n;
  let see = 0;
  let sew = 0;
  for (let i = 0; i < n; i += 1) {
    see += (e[i] - meanE) ** 2;
    sew += (e[i] - meanE) * (massG[i] - meanW);
  }
  const A = sew / see;
  const c = meanW - A * meanE;
  const rss = massG.reduce((sum, w, i) => sum + (w - c - A * e[i]) ** 2, 0);
  return { k, c, A, rss };
}

/** The k of least RSS: a coarse look over five decades, then golden section; c and A follow from k. */
function bestRate(hours, massG) {
  const span = hours.at(-1) - hours[0];
  const low = Math.log(0.02 / span);
  const high = Math.log(50 / span);
  const steps = 60;
  let best = 0;
  let least = Infinity;
  for (let i = 0; i <= steps; i += 1) {
    const { rss } = atRate(hours, massG, Math.exp(low + ((high - low) * i) / steps));
    if (rss < least) [least, best] = [rss, i];
  }
  const golden = (Math.sqrt(5) - 1) / 2;
  let a = low + ((high - low) * Math.max(0, best - 1)) / steps;
  let b = low + ((high - low) * Math.min(steps, best + 1)) / steps;
  for (let i = 0; i < 80; i += 1) {
    const p = b - golden * (b - a);
    const q = a + golden * (b - a);
    if (atRate(hours, massG, Math.exp(p)).rss < atRate(hours, massG, Math.exp(q)).rss) b = q;
    else a = p;
  }
  return atRate(hours, massG, Math.exp((a + b) / 2));
}

function straight(hours, massG) {
  const n = hours.length;
  const meanT = hours.reduce((a, b) => a + b) / n;
  const meanW = massG.reduce((a, b) => a + b) / n;
  let stt = 0;
  let stw = 0;
  hours.forEach((hour, i) => {
    stt += (hour - meanT) ** 2;
    stw += (hour - meanT) * (massG[i] - meanW);
  });
  const slope = stw / stt;
  const at = (hour) => meanW + slope * (hour - meanT);
  const rss = massG.reduce((sum, w, i) => sum + (w - at(hours[i])) ** 2, 0);
  return { shape: 'straight', at, startRate: -slope, rsd: Math.sqrt(rss / Math.max(1, n - 2)) };
}

/**
 * A dry-down's fit: {shape: 'curve', c, A, k, rsd, at(hour), startRate g/h, halfHours, endKnown}; endKnown is
 * false where k times the span is too small to tell the end weight c. Or a straight line where no curve bends
 * the right way, or {shape: 'refused'} where nothing fits.
 */
export function fitDryDown(hours, massG) {
  const sound = hours.length >= LEAST_POINTS && massG.every(Number.isFinite) && hours.every((hour, i) => i === 0 || hour > hours[i - 1]);
  if (!sound) return { shape: 'refused' };
  const line = straight(hours, massG);
  if (!(line.startRate > 0)) return { shape: 'refused' };
  const { k, c, A, rss } = bestRate(hours, massG);
  const span = hours.at(-1) - hours[0];
  if (!(A > 0)) return line;
  return {
    shape: 'curve', c, A, k,
    rsd: Math.sqrt(rss / Math.max(1, hours.length - 3)),
    at: (hour) => c + A * Math.exp(-k * hour),
    startRate: A * k,
    halfHours: Math.LN2 / k,
    endKnown: k * span >= LEAST_K_SPAN,
  };
}

/** Mean loss in g/h over the first `firstHours`: comparable between curves of any length. */
export function firstRate(dryDown, firstHours = 12) {
  const until = dryDown.hours.findLastIndex((hour) => hour <= firstHours);
  const hours = dryDown.hours.slice(0, until + 1);
  if (hours.length < 3) return NaN;
  return straight(hours, dryDown.massG.slice(0, until + 1)).startRate;
}
