package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * One reading that did not fit, waiting for the next to tell a spike from a change: in effect the
 * median of three with the forecast as the first.
 *
 * @param at when it was read
 * @param massG what was read, corrected for temperature, g
 * @param surpriseG how far it was from the forecast, g
 */
record Doubt(Instant at, double massG, double surpriseG) {

  /** Whether the next reading shows the same change, within {@code toleranceG}. */
  boolean confirmedBy(double nextG, double toleranceG) {
    return Math.abs(nextG - massG) <= toleranceG;
  }
}
