// The live stream, with its own patience: the browser tries again by itself after a dropped line, but not
// after a host that answered with an error while it started.

import { store } from './store.js';

const KINDS = ['cup', 'weight', 'bench', 'presence', 'event'];
const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 8000;

let source = null;
let waitMs = FIRST_WAIT_MS;
let timer = null;

export function follow() {
  clearTimeout(timer);
  source?.close();
  source = new EventSource('api/live');
  source.onopen = () => {
    waitMs = FIRST_WAIT_MS;
    store.setLink('live');
    store.load();
  };
  source.onerror = () => {
    store.setLink(store.loaded ? 'lost' : 'connecting');
    source.close();
    timer = setTimeout(follow, waitMs);
    waitMs = Math.min(LONGEST_WAIT_MS, waitMs * 2);
  };
  for (const kind of KINDS) {
    source.addEventListener(kind, (message) => store.hear(kind, JSON.parse(message.data)));
  }
}

/** Tries at once when the device comes back to the net or the page to the eye. */
export function followAgainWhenAwake() {
  const retry = () => {
    if (store.link.state !== 'live') {
      waitMs = FIRST_WAIT_MS;
      follow();
    }
  };
  addEventListener('online', retry);
  document.addEventListener('visibilitychange', () => document.hidden || retry());
}
