/**
 * What every simulated world has in common, and nothing of how it comes about: a cup as it truly
 * is, the air of a room, a scale under a cup, a person at the bench.
 *
 * <p>A rehearsal, its referee and its figures know a world by these alone. No formula of physics or
 * of plants lives here, so that two worlds can share it and nothing else.
 */
package dev.cupwarden.simulator.world;
