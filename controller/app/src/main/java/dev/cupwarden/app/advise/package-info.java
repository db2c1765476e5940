/**
 * The command {@code advise}: a line of readings in, a line of advice out. Lines, formats and exit
 * codes live here; no rule about water does.
 */
package dev.cupwarden.app.advise;
