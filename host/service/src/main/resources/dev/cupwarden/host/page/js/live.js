// The live stream, with its own patience: the browser tries again by itself after a dropped line, but not
// after a host that answered with an error while it started.

import * as api from './api.js';
import { store } from './store.js';

const KINDS = ['cup', 'cup-gone', 'weight', 'bench', 'setup', 'presence', 'event', 'host'];
const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 8000;
const UNSEEN_MS = 120e3;

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
    leaveIfSignedOut();
    timer = setTimeout(follow, waitMs);
    waitMs = Math.min(LONGEST_WAIT_MS, waitMs * 2);
  };
  for (const kind of KINDS) {
    source.addEventListener(kind, (message) => store.hear(kind, JSON.parse(message.data)));
  }
}

/** A stream that was refused does not say why; a session that has ended is one reason. */
export async function leaveIfSignedOut() {
  try {
    const session = await api.session();
    if (session.asks && !session.name) api.goToSignIn();
  } catch {
    // The host is away: the banner says so, and the stream tries again.
  }
}

function stop() {
  clearTimeout(timer);
  clearTimeout(resting);
  source?.close();
  source = null;
}

let resting = null;

/**
 * Gives its line back when the page is left or long out of sight (a browser has but six to one host, and a
 * phone but one battery), and takes it up again, with all loaded anew, when it is looked at.
 */
export function restWhenUnseen() {
  const again = () => {
    clearTimeout(resting);
    if (store.link.state !== 'live' || !source) {
      waitMs = FIRST_WAIT_MS;
      follow();
    }
  };
  addEventListener('online', again);
  addEventListener('pagehide', stop);
  addEventListener('pageshow', (event) => event.persisted && again());
  document.addEventListener('visibilitychange', () => {
    clearTimeout(resting);
    if (document.hidden) resting = setTimeout(stop, UNSEEN_MS);
    else again();
  });
}
