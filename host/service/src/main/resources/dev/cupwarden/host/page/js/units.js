// Quantities, times and dates as the reader wants them. Inside, all is grams, millilitres, degrees Celsius.

const KEY = 'cupwarden.units';
const ML_PER_US_FL_OZ = 29.5735295625; // exact: 1 US gallon is 231 cubic inches
const G_PER_OZ = 28.349523125; // exact, international avoirdupois
const L_PER_US_GAL = 3.785411784; // exact

const usual = { volume: 'ml', mass: 'g', temp: 'c', clock: 'locale' };
let chosen = read();

function read() {
  try {
    return { ...usual, ...JSON.parse(localStorage.getItem(KEY) ?? '{}') };
  } catch {
    return { ...usual }; // storage switched off or spoilt: the usual units serve
  }
}

/** The reader's choice: volume ml|floz, mass g|oz, temp c|f, clock locale|12|24. */
export function choice() {
  return chosen;
}

export function choose(change) {
  chosen = { ...chosen, ...change };
  formats = makeFormats();
  try {
    localStorage.setItem(KEY, JSON.stringify(chosen));
  } catch {
    // Without storage the choice lasts as long as the page.
  }
}

const locale = () => navigator.languages?.[0] ?? 'en';

function makeFormats() {
  const clock = chosen.clock === 'locale' ? {} : { hour12: chosen.clock === '12' };
  const make = (options) => new Intl.DateTimeFormat(locale(), { ...options, ...clock });
  return {
    time: make({ hour: '2-digit', minute: '2-digit' }),
    dayTime: make({ weekday: 'short', day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' }),
    day: new Intl.DateTimeFormat(locale(), { weekday: 'short', day: 'numeric', month: 'short' }),
    date: new Intl.DateTimeFormat(locale(), { day: 'numeric', month: 'short', year: 'numeric' }),
  };
}
let formats = makeFormats();

const numbers = [0, 1, 2, 3].map(
  (digits) => new Intl.NumberFormat(locale(), { minimumFractionDigits: digits, maximumFractionDigits: digits }),
);
export const number = (value, digits = 0) => numbers[digits].format(Object.is(value, -0) ? 0 : value);

const known = (value) => value !== null && value !== undefined && Number.isFinite(value);

export function volume(ml, digits = 0) {
  if (!known(ml)) return '–';
  return chosen.volume === 'floz' ? `${number(ml / ML_PER_US_FL_OZ, 1)} fl oz` : `${number(ml, digits)} mL`;
}

export function tank(ml) {
  if (!known(ml)) return '–';
  if (chosen.volume === 'floz') return `${number(ml / 1000 / L_PER_US_GAL, 2)} gal`;
  return ml >= 1000 ? `${number(ml / 1000, 1)} L` : `${number(ml, 0)} mL`;
}

export function mass(g, digits = 1) {
  if (!known(g)) return '–';
  return chosen.mass === 'oz' ? `${number(g / G_PER_OZ, 2)} oz` : `${number(g, digits)} g`;
}
export const massValue = (g) => (chosen.mass === 'oz' ? g / G_PER_OZ : g);
export const massUnit = () => (chosen.mass === 'oz' ? 'oz' : 'g');
export const rate = (gPerH) => (known(gPerH) ? `${mass(gPerH, 2)}/h` : '–');

export function temp(c) {
  if (!known(c)) return '–';
  return chosen.temp === 'f' ? `${number(c * 1.8 + 32, 1)} °F` : `${number(c, 1)} °C`;
}
export const percent = (part) => (known(part) ? `${number(part * 100, 0)} %` : '–');

/** mL from what the reader typed in the chosen unit. */
export const mlFromTyped = (typed) => (chosen.volume === 'floz' ? typed * ML_PER_US_FL_OZ : typed);
export const typedFromMl = (ml) => (chosen.volume === 'floz' ? ml / ML_PER_US_FL_OZ : ml);
export const volumeUnit = () => (chosen.volume === 'floz' ? 'US fl oz' : 'mL');

export const clockTime = (ms) => formats.time.format(ms);
export const dayTime = (ms) => formats.dayTime.format(ms);
export const day = (ms) => formats.day.format(ms);
export const date = (ms) => formats.date.format(ms);
/** The time alone when within half a day of `nowMs`, else with its day. */
export const near = (ms, nowMs) => (Math.abs(ms - nowMs) < 12 * 3600e3 ? clockTime(ms) : dayTime(ms));

/** A span in its two largest units: "5 h", "2 d 3 h", "35 min", "12 s". */
export function span(ms) {
  const seconds = Math.max(0, Math.round(ms / 1000));
  if (seconds < 60) return `${seconds} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  const hours = minutes / 60;
  if (hours < 6) return minutes % 60 ? `${Math.floor(hours)} h ${minutes % 60} min` : `${Math.floor(hours)} h`;
  if (hours < 24) return `${Math.round(hours)} h`;
  const days = Math.floor(hours / 24);
  const rest = Math.round(hours - days * 24);
  if (days >= 7 || rest === 0) return `${Math.round(hours / 24)} d`;
  return rest === 24 ? `${days + 1} d` : `${days} d ${rest} h`;
}
