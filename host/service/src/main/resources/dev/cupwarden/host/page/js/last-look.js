// When this reader last looked at a bench, by the bench's own time, kept by the browser.

const KEY = 'cupwarden.look.';
/** Shorter than that is the same look: our choice. */
const SAME_LOOK_MS = 30 * 60e3;

/** By bench: the look before this page was opened, epoch ms; null where there was none, or its news were put away. */
const before = new Map();

function stored(bench) {
  try {
    return Number(localStorage.getItem(KEY + bench)) || null;
  } catch {
    return null; // storage switched off: each look is the first
  }
}

/** The bench is looked at now. */
export function look(bench, nowMs) {
  if (!Number.isFinite(nowMs)) return;
  if (!before.has(bench)) before.set(bench, stored(bench));
  if (document.hidden) return; // nobody looks
  try {
    localStorage.setItem(KEY + bench, String(Math.round(nowMs)));
  } catch {
    // Without storage nothing is known at the next look.
  }
}

/** Since when there may be news, epoch ms; null where the last look is as good as now. */
export function newsSince(bench, nowMs) {
  const at = before.get(bench) ?? null;
  return at !== null && nowMs - at > SAME_LOOK_MS ? at : null;
}

export const putAway = (bench) => before.set(bench, null);
