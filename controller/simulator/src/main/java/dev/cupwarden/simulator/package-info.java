/**
 * A bench that is not there: the same Pi4J calls, answered by simulated chips on simulated water,
 * in seeded virtual time.
 *
 * <p>Lives here: virtual time and the bench as a whole (chips, plumbing and cups put together).
 * Does not live here: anything of the drivers (the simulator knows data sheets, not our code), any
 * real clock, any random number without a seed.
 */
package dev.cupwarden.simulator;
