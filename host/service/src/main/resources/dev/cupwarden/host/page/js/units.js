// Quantities, times and dates as the reader wants them. Inside, all is grams, millilitres, degrees Celsius.

const KEY = 'cupwarden.units';
const ML_PER_US_FL_OZ = 29.5735295625; // exact: 1 US gallon is 231 cubic inches
const G_PER_OZ = 28.349523125; // exact, international avoirdupois
const L_PER_US_GAL = 3.785411784; // exact

const usual = { volume: 'ml', mass: 'g', temp: 'c', clock: 'locale', dates: 'locale', zone: 'device' };
let language = 'en';
let storageOf = () => null;
let benchZone = null;
let chosen = { ...usual };

/**
 * Whose quantities and times these are: the language as the browser names it, and where the reader's choice is kept (asked
 * for each time, since a browser may refuse it). Before that, and where there is neither, the usual units in English serve.
 */
export function readFor(reader) {
  language = reader.language ?? 'en';
  storageOf = reader.storage ?? (() => null);
  chosen = read();
  formats = makeFormats();
}

function read() {
  try {
    return { ...usual, ...JSON.parse(storageOf()?.getItem(KEY) ?? '{}') };
  } catch {
    return { ...usual }; // storage switched off or spoilt: the usual units serve
  }
}

/** The reader's choice: volume ml|floz, mass g|oz, temp c|f, clock locale|12|24, dates locale|iso|dmy|mdy, zone device|bench. */
export function choice() {
  return chosen;
}

export function choose(change) {
  chosen = { ...chosen, ...change };
  formats = makeFormats();
  try {
    storageOf()?.setItem(KEY, JSON.stringify(chosen));
  } catch {
    // Without storage the choice lasts as long as the page.
  }
}

const deviceZone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The zone of the bench that is looked at; it counts where the reader chose the bench's time. */
export function useBenchZone(zone) {
  if ((zone ?? null) === benchZone) return;
  benchZone = zone ?? null;
  formats = makeFormats();
}

/** The zone in which times are shown. */
export const zone = () => (chosen.zone === 'bench' && benchZone ? benchZone : deviceZone());

/** Languages whose dates have the order that the reader chose; words stay short ones of that language. */
const DATE_LOCALES = { iso: 'sv-SE', dmy: 'en-GB', mdy: 'en-US' };

function makeFormats() {
  const clock = chosen.clock === 'locale' ? {} : { hour12: chosen.clock === '12' };
  const dateLanguage = DATE_LOCALES[chosen.dates] ?? language;
  const make = (options) => new Intl.DateTimeFormat(dateLanguage, { ...options, timeZone: zone() });
  /** @type {Intl.DateTimeFormatOptions} */
  const time = { hour: '2-digit', minute: '2-digit', ...clock };
  /** @type {Intl.DateTimeFormatOptions} */
  const numeric = { year: 'numeric', month: '2-digit', day: '2-digit' };
  /** @type {Intl.DateTimeFormatOptions} */
  const short = chosen.dates === 'iso' ? numeric : { weekday: 'short', day: 'numeric', month: 'short' };
  return {
    time: new Intl.DateTimeFormat(language, { ...time, timeZone: zone() }),
    dayTime: make({ ...short, ...time }),
    day: make(short),
    date: make(chosen.dates === 'iso' ? numeric : { day: 'numeric', month: 'short', year: 'numeric' }),
    month: make({ month: 'short', year: 'numeric' }),
    dayOfYear: make({ day: 'numeric', month: 'long' }),
    parts: new Intl.DateTimeFormat('sv-SE', { ...numeric, hour: '2-digit', minute: '2-digit', timeZone: zone() }),
    numbers: [0, 1, 2, 3].map(
      (digits) => new Intl.NumberFormat(language, { minimumFractionDigits: digits, maximumFractionDigits: digits }),
    ),
  };
}
let formats = makeFormats();

export const number = (value, digits = 0) => formats.numbers[digits].format(Object.is(value, -0) ? 0 : value);

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
/** What is put on a kitchen's scale: grams stand beside ounces, whose hundredths are too coarse. */
export const weighed = (g) => (known(g) && chosen.mass === 'oz' ? `${mass(g)} (${number(g, 2)} g)` : mass(g, 2));
export const massValue = (g) => (chosen.mass === 'oz' ? g / G_PER_OZ : g);
export const massUnit = () => (chosen.mass === 'oz' ? 'oz' : 'g');
export const rate = (gPerH) => (known(gPerH) ? `${mass(gPerH, 2)}/h` : '–');

export function temp(c) {
  if (!known(c)) return '–';
  return chosen.temp === 'f' ? `${number(c * 1.8 + 32, 1)} °F` : `${number(c, 1)} °C`;
}
export const tempValue = (c) => (chosen.temp === 'f' ? c * 1.8 + 32 : c);
export const tempUnit = () => (chosen.temp === 'f' ? '°F' : '°C');
/** °C from what the reader typed in the chosen unit. */
export const cFromTyped = (typed) => (chosen.temp === 'f' ? (typed - 32) / 1.8 : typed);
export const percent = (part) => (known(part) ? `${number(part * 100, 0)} %` : '–');

/** mL from what the reader typed in the chosen unit. */
export const mlFromTyped = (typed) => (chosen.volume === 'floz' ? typed * ML_PER_US_FL_OZ : typed);
export const typedFromMl = (ml) => (chosen.volume === 'floz' ? ml / ML_PER_US_FL_OZ : ml);
export const volumeUnit = () => (chosen.volume === 'floz' ? 'US fl oz' : 'mL');

export const clockTime = (ms) => formats.time.format(ms);
export const dayTime = (ms) => formats.dayTime.format(ms);
export const day = (ms) => formats.day.format(ms);
export const date = (ms) => formats.date.format(ms);
export const month = (ms) => formats.month.format(ms);
/** "1 December", of a month and day of any year. */
export const dayOfYear = (monthNumber, dayNumber) => formats.dayOfYear.format(new Date(2000, monthNumber - 1, dayNumber, 12));

/** The day at the bench's place, whatever zone times are shown in; of a bench that names none, that of UTC. */
export const benchDay = (ms) => new Intl.DateTimeFormat('sv-SE', { timeZone: benchZone ?? 'UTC' }).format(ms);

/** What a datetime-local field wants, to the minute, in the zone in which times are shown. */
export const typedMinute = (ms) => formats.parts.format(ms).replace(' ', 'T');
/** The moment that such a field means, ms; NaN where it is empty. */
export function msFromTyped(typed) {
  const wanted = Date.parse(`${typed}Z`);
  if (!Number.isFinite(wanted)) return NaN;
  // What the zone shows at a guess tells how far off the guess is; a second look settles changes of summer time.
  const shown = (ms) => Date.parse(`${typedMinute(ms)}Z`);
  const guess = wanted - (shown(wanted) - wanted);
  return guess - (shown(guess) - wanted);
}
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
