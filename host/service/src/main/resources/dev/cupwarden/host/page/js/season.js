// What became of cuttings, and how little small numbers say of it.

const Z_95 = 1.959964; // two-sided 95 % of the normal distribution

/** Wilson's score interval (E. B. Wilson 1927) for n of `of`: [low, high], both 0 to 1. */
export function wilson(n, of) {
  if (of === 0) return [0, 1];
  const p = n / of;
  const z2 = Z_95 ** 2;
  const centre = (p + z2 / (2 * of)) / (1 + z2 / of);
  const half = (Z_95 * Math.sqrt((p * (1 - p)) / of + z2 / (4 * of * of))) / (1 + z2 / of);
  return [Math.max(0, centre - half), Math.min(1, centre + half)];
}

/** What became of a cutting: why it was taken out, else what is seen of its roots. */
export function fateOf(cutting) {
  if (cutting.gone) return cutting.because ?? 'other';
  return cutting.stage === 'toughened' || cutting.stage === 'circling' ? 'growing' : 'unknown';
}

/** How the day on which roots were seen lies to those between which they were foretold; days as YYYY-MM-DD. */
export function besideBand({ day, from, to }) {
  if (day < from) return 'before';
  return day > to ? 'after' : 'within';
}

/** All that was foretold and then seen, the last seen first: {cutting, roots, day, from, likely, to}. */
export const foretold = (cuttings) =>
  cuttings
    .flatMap((cutting) => (cutting.foretold ?? []).map((each) => ({ ...each, cutting })))
    .sort((a, b) => b.day.localeCompare(a.day) || a.cutting.cup.localeCompare(b.cutting.cup));
