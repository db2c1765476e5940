/**
 * The tick of a bench: its steps in the one order in which {@link dev.cupwarden.core.tick.Tick}
 * calls them. Pure: time and state come in, new state, passes, alerts and receipts go out. No rule
 * of its own lives here that a room could hold.
 */
package dev.cupwarden.core.tick;
