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
 */
record Drainage(Instant since, double peakG, double markG, Instant markAt) {
  /** Nearer to capacity than this part of the available water, a rise may have drained. */
  private static final double NEAR_CAPACITY = 0.2;

  private static final double MARK_EVERY_H = 0.5;

  /** Cups of peat or coir drain within the hour; what is lost later is drying (project choice). */
  private static final double LONGEST_H = 2;

  /** A rise that drained lost at least this besides drying: more than drips and noise, g. */
  private static final double LEAST_DRAINED_G = 3;

  /** At rest a cup loses no more than it dries and this, g in a mark's time. */
  private static final double REST_G = 0.5;

  /** The phase that begins with a rise, or null if the cup is too far below capacity to drain. */
  static Drainage begin(Instant at, double massG, WeightFrame frame) {
    return frame.depletion(massG) < NEAR_CAPACITY ? new Drainage(at, massG, massG, at) : null;
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

  /** Whether it lost visibly more than it would have dried: then where it rests is capacity. */
  boolean drained(Instant now, double massG, double rateGPerH) {
    return peakG - massG - Math.max(0, rateGPerH) * Elapsed.hours(since, now) >= LEAST_DRAINED_G;
  }

  boolean tooLong(Instant now) {
    return Elapsed.hours(since, now) > LONGEST_H;
  }

  Drainage marked(Instant now, double massG) {
    return new Drainage(since, peakG, massG, now);
  }
}
