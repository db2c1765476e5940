package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * A cup that was just filled to about capacity or past it: for a while it loses more than it dries,
 * and where that ends it shows its capacity.
 *
 * @param since the last rise
 * @param peakG heaviest since then, g
 * @param markG weight half an hour ago or so, g
 * @param markAt when that was
 * @param fellG what it lost besides drying in the time before the mark, g; 0: none before
 * @param uneven whether it fell otherwise than what drains does
 */
record Drainage(
    Instant since, double peakG, double markG, Instant markAt, double fellG, boolean uneven) {
  /** Nearer to capacity than this part of the available water, a rise may have drained. */
  private static final double NEAR_CAPACITY = 0.2;

  private static final double MARK_EVERY_H = 0.5;

  /** An exponential with a time constant of three quarters of an hour halves in a mark's time. */
  private static final double SLOWS_TO = 0.5;

  /** Cups of peat or coir drain within the hour; what is lost later is drying (project choice). */
  private static final double LONGEST_H = 2;

  /** A rise that drained lost at least this besides drying: more than drips and noise, g. */
  private static final double LEAST_DRAINED_G = 3;

  /** At rest a cup loses no more than it dries and this, g in a mark's time. */
  private static final double REST_G = 0.5;

  /** The phase that begins with a rise, or null if the cup is too far below capacity to drain. */
  static Drainage begin(Instant at, double massG, WeightFrame frame) {
    return frame.depletion(massG) < NEAR_CAPACITY
        ? new Drainage(at, massG, massG, at, 0, false)
        : null;
  }

  /** Whether it is time to compare with the mark. */
  boolean due(Instant now) {
    return Elapsed.hours(markAt, now) >= MARK_EVERY_H - 1e-9;
  }

  /** Whether the cup has come to rest: since the mark it has only dried. */
  boolean atRest(Instant now, double massG, double rateGPerH) {
    double hours = Elapsed.hours(markAt, now);
    return markG - massG <= Math.max(0, rateGPerH) * hours + REST_G;
  }

  /**
   * Whether it fell as what drains does, and lost visibly more than it would have dried: then where
   * it rests is capacity.
   */
  boolean drained(Instant now, double massG, double rateGPerH) {
    return !uneven
        && peakG - massG - Math.max(0, rateGPerH) * Elapsed.hours(since, now) >= LEAST_DRAINED_G;
  }

  boolean tooLong(Instant now) {
    return Elapsed.hours(since, now) > LONGEST_H;
  }

  /** With a new mark: what drains loses at most half as much as in the time before. */
  Drainage marked(Instant now, double massG, double rateGPerH) {
    double fallsG = markG - massG - Math.max(0, rateGPerH) * Elapsed.hours(markAt, now);
    boolean slows = fellG == 0 || fallsG <= SLOWS_TO * fellG;
    return new Drainage(since, peakG, massG, now, fallsG, uneven || !slows);
  }
}
