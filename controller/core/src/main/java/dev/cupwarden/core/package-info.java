/**
 * The tick of a bench and its whole state: the rooms below, called in one order. Pure: time and
 * state come in, new state, passes, alerts and receipts go out. No rule of its own lives here that
 * a room could hold.
 */
package dev.cupwarden.core;
