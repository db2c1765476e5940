/**
 * A winter on a simulated bench, for any policy: the same cups, weather, person and faults for
 * each, and figures one can compare.
 *
 * <p>{@link dev.cupwarden.simulator.rehearsal.Rehearsal} is the loop. A policy sees what a
 * controller would see, but for {@code oracle} and {@code by-hand}, which are given eyes. The
 * figures and the referee judge by the simulator's truth and by the bench file alone, never by the
 * controller's own account. No clock, no thread: the same seed gives the same figures.
 */
package dev.cupwarden.simulator.rehearsal;
