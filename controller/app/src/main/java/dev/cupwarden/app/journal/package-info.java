/**
 * The controller's memory: one SQLite file that holds what was seen, decided, given and is still to
 * be told. What stands here survives a power cut. No rule about water, no network and no clock live
 * here: times come in with what is written.
 */
package dev.cupwarden.app.journal;
