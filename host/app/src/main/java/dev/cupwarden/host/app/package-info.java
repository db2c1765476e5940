/**
 * The host's commands: reading their options, starting what they name, showing how it goes, ending
 * it in order.
 *
 * <p>Must not live here: what a host or a bench does. A command is options, a start and an end.
 */
package dev.cupwarden.host.app;
