/**
 * Tells people: sends what alerts say by e-mail and webhook, grouped, not at night unless it is
 * urgent, again until it has arrived; from memory while the store takes nothing.
 *
 * <p>Must not live here: which condition of a cup is an alert (the bench decides), or SQL (see
 * {@code store}). Words and secrets are read from files of their own and never printed.
 */
package dev.cupwarden.host.notify;
