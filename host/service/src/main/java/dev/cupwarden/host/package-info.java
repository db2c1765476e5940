/**
 * The host as a whole: which parts it has, in which order they start and stop, and what it is told
 * to be ({@link dev.cupwarden.host.HostSettings}).
 *
 * <p>Each part lives in a package of its own: {@code broker} carries messages, {@code ingest} takes
 * them in, {@code store} keeps them, {@code orders} sends what a person asks, {@code web} shows it.
 * No rule about plants or water belongs here or below: the bench decides, the host shows and keeps.
 */
package dev.cupwarden.host;
