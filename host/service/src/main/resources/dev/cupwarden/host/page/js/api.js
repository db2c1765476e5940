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
  if (!answer.ok) throw new Error(await sentenceOf(answer));
  return answer.json();
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
export const orders = (bench) => get(path('benches', bench, 'orders'));

/** Weights of a cup: {at: [epoch seconds], mass_g: []}; from and to are Dates or missing. */
export const weights = (bench, cup, from, to) =>
  get(path('benches', bench, 'cups', cup, 'weights') + query({ from, to }));

/** Events, filtered by cup, kind, from, to, limit. */
export const events = (bench, filter = {}) => get(path('benches', bench, 'events') + query(filter));

/** The bench as set up (vessels, mixes, feeds, tanks, cups), or null where the host does not have it. */
export async function setup(bench) {
  try {
    return await get(path('benches', bench, 'setup'));
  } catch {
    return null; // Cups are then drawn in a usual shape, to the scale of the water they hold.
  }
}

/** Posts an order; answers {id}. */
export async function order(bench, fields) {
  const answer = await fetch(path('benches', bench, 'orders'), {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: 'application/json' },
    body: JSON.stringify(fields),
  });
  if (!answer.ok) throw new Error(await sentenceOf(answer));
  return answer.json();
}
