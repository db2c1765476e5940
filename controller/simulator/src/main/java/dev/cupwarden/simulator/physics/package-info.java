/**
 * What truly happens in a cup: water in the mix, the cutting, nitrogen and salts, as arithmetic in
 * virtual time.
 *
 * <p>Here live {@link dev.cupwarden.simulator.physics.SimulatedCup} and its parts. They take a
 * vessel, a mix and a cup as entered by the grower, and draw from a seed what is really in the cup.
 * Nothing here may use the controller's own computations of capacity, vapour pressure or dry-down:
 * a mistake there must not hide behind the same mistake here. No clock, no file, no thread. All
 * functions are {@link java.lang.StrictMath}'s, so that a seed gives the same bytes on any machine.
 */
package dev.cupwarden.simulator.physics;
