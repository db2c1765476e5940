package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * How much of a reading may still be the load cell's creep after a change of load.
 *
 * <p>A small cell creeps by 0.02 to 0.1 % of the load in 30 min (from memory, of data sheets). The
 * reading is not corrected by a guess, it is believed less until the cell has come to rest, so that
 * an approach is taken neither for drying nor for watering.
 *
 * @param amplitudeG the most that it can be just after the change, g
 * @param since when the load changed; null: long ago
 */
record Creep(double amplitudeG, Instant since) {
  static final Creep NONE = new Creep(0, null);

  private static final double PART_OF_CHANGE = 0.001;
  private static final double TIME_CONSTANT_H = 0.25;

  /** Twenty time constants: less is left than any scale resolves. */
  private static final double GONE_AFTER_H = 20 * TIME_CONSTANT_H;

  /** After the load changed by that much, on top of what is left of the change before. */
  Creep after(Instant at, double changeG) {
    return new Creep(Math.sqrt(var(at)) + PART_OF_CHANGE * Math.abs(changeG), at);
  }

  /** Variance to add to a reading's, g². */
  double var(Instant now) {
    if (since == null) {
      return 0;
    }
    double hours = Elapsed.hours(since, now);
    if (hours > GONE_AFTER_H) {
      return 0;
    }
    double leftG = amplitudeG * Math.exp(-hours / TIME_CONSTANT_H);
    return leftG * leftG;
  }
}
