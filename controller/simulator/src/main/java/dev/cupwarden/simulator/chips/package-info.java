/**
 * Chips as their data sheets describe them, register by register, behind a Pi4J provider.
 *
 * <p>Lives here: what a chip answers on the bus, its noise and its faults. Does not live here: what
 * the chip measures (that comes in through a function) and any constant of the drivers: each side
 * is written from the data sheet by itself, so that a misread sheet does not pass twice.
 */
package dev.cupwarden.simulator.chips;
