// The host's HTTP interface, one function a path.

const path = (...parts) => `api/${parts.map(encodeURIComponent).join('/')}`;

function query(fields) {
  const params = new URLSearchParams();
  for (const [key, value] of Object.entries(fields)) {
    if (value !== undefined && value !== null) params.set(key, value instanceof Date ? value.toISOString() : value);
  }
  const words = params.toString();
  return words ? `?${words}` : '';
}

const PATIENCE_MS = 20e3;

async function get(address) {
  const answer = await fetch(address, { headers: { Accept: 'application/json' }, signal: AbortSignal.timeout(PATIENCE_MS) });
  await check(answer);
  return answer.json();
}

async function check(answer) {
  if (answer.status === 401) goToSignIn();
  if (!answer.ok) throw new Error(await sentenceOf(answer));
}

/** Leaves for the page that asks who one is; it leads back to where one is now. */
export function goToSignIn() {
  location.assign(`sign-in/${location.hash}`);
}

async function sentenceOf(answer) {
  const body = await answer.text();
  try {
    const parsed = JSON.parse(body);
    return parsed.error ?? parsed.message ?? parsed.title ?? `HTTP ${answer.status}`;
  } catch {
    return body && body.length < 300 ? body : `HTTP ${answer.status}`;
  }
}

export const benches = () => get(path('benches'));
export const cups = (bench) => get(path('benches', bench, 'cups'));
export const alerts = (bench) => get(path('benches', bench, 'alerts'));
export const orders = (bench, limit) => get(path('benches', bench, 'orders') + query({ limit }));

/** Weights of a cup: {at: [epoch seconds], mass_g: []}; from and to are Dates or missing. */
export const weights = (bench, cup, from, to) => get(path('benches', bench, 'cups', cup, 'weights') + query({ from, to }));

/** Dry-downs of a cup as the host cut and fitted them: {dry_downs: [{from, to, start_seen, hours, mass_g, loss_g_h_kpa, fit}], change}. */
export const dryDowns = (bench, cup, from) => get(path('benches', bench, 'cups', cup, 'dry-downs') + query({ from }));

/** Events, filtered by cup, kind, from, to, limit. */
export const events = (bench, filter = {}) => get(path('benches', bench, 'events') + query(filter));

/** What cups were given between two Dates: [{cup, why, passes, plain_ml, feed_ml}]. */
export const given = (bench, from, to) => get(path('benches', bench, 'given') + query({ from, to }));

/** Air, roots, humidity and light between two Dates: each {at: [epoch seconds], value: []}. */
export const climate = (bench, from, to) => get(path('benches', bench, 'climate') + query({ from, to }));

/** The bench as set up (vessels, mixes, feeds, tanks, cups); null until it has told: cups are then drawn in a usual shape. */
export const setup = (bench) => get(path('benches', bench, 'setup'));

/** Tanks: {tank, size_ml, feed, strength, left_ml, use_ml_per_d, use_over_s, lasts_until}. */
export const tanks = (bench) => get(path('benches', bench, 'tanks'));

/** What to weigh for a volume of a feed at a strength: {feed_g, spoons, ec_ms_per_cm, …}. */
export const recipe = (bench, fields) => get(path('benches', bench, 'recipe') + query(fields));

/** Of the host itself: whether its store takes what it is given, and how much room it has. */
export const host = () => get(path('host'));

/** Who is signed in: {asks, name, role}; where nobody is asked, anybody may act. */
export const session = () => get(path('session'));

export async function signOut() {
  await check(await fetch(path('session'), { method: 'DELETE', signal: AbortSignal.timeout(PATIENCE_MS) }));
}

/** Every cutting that ever stood on the bench: {cup, plant, vessel, mix, stage, since, gone, because}. */
export const cuttings = (bench) => get(path('benches', bench, 'cuttings'));

/** The decision that stood at a Date: {since, told, until, state, depletion, reasons}. */
export const reasons = (bench, cup, at) => get(path('benches', bench, 'cups', cup, 'reasons') + query({ at }));

/** Depletion, rate, vapour pressure deficit, feed and salts over time, each as a list beside `at`. */
export const course = (bench, cup, from, to) => get(path('benches', bench, 'cups', cup, 'course') + query({ from, to }));

async function post(address, fields) {
  const answer = await fetch(address, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: 'application/json' },
    body: JSON.stringify(fields),
    signal: AbortSignal.timeout(PATIENCE_MS),
  });
  await check(answer);
  const body = await answer.text();
  return body ? JSON.parse(body) : null;
}

/** Posts an order; answers {id}. */
export const order = (bench, fields) => post(path('benches', bench, 'orders'), fields);

/** What an edited text of the bench file asks for: {changes, refused, other_text}, or {error: {line, column, sentence}}. Changes nothing. */
export const tryFile = (bench, edited) => post(path('benches', bench, 'file'), { text: edited });

/** Notes of a cup by the day seen: {id, at, day, stage, by, words, photo}; `photo` tells whether there is one. */
export const notes = (bench, cup) => get(path('benches', bench, 'cups', cup, 'notes'));

/** Keeps a note: {day, stage, words, photo: base64 or missing}; answers it. */
export const keepNote = (bench, cup, note) => post(path('benches', bench, 'cups', cup, 'notes'), note);

export async function deleteNote(bench, cup, id) {
  await check(
    await fetch(path('benches', bench, 'cups', cup, 'notes', id), { method: 'DELETE', signal: AbortSignal.timeout(PATIENCE_MS) }),
  );
}

export const photoOf = (bench, cup, id) => path('benches', bench, 'cups', cup, 'photos', id);

/** Marks an open alert as seen: {code, cup} or {code} for one of the whole bench. */
export const acknowledge = (bench, fields) => post(path('benches', bench, 'acknowledgements'), fields);
