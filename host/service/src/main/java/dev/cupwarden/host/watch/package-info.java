/**
 * What the host looks after by itself: that its store takes what comes, that each controller's loop
 * goes on, that one name is one controller; and the alerts of the host's own that tell of these.
 *
 * <p>Must not live here: how people are told (see {@code notify}), or SQL (see {@code store}).
 * Nothing here waits for a database that is away: what must be told then is told from memory.
 */
package dev.cupwarden.host.watch;
