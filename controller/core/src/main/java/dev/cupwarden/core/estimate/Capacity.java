package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * What a cup weighs at container capacity, learned from drained plateaus.
 *
 * <p>The first plateau replaces the predicted weight: the mix holds more or less than its curve
 * says. Later ones follow the plant: the water held does not change, so what the plateau rises by
 * is growth, and dry and saturated weights rise with it. A plateau told by a person replaces the
 * one before; a plateau found unasked is averaged in by its precision.
 *
 * @param massG gross grams at capacity; 0: none learned
 * @param firstG the first one learned, g
 * @param varG2 variance of {@code massG}, g²
 * @param at when last learned; null: never
 */
public record Capacity(double massG, double firstG, double varG2, Instant at) {
  static final Capacity PREDICTED = new Capacity(0, 0, 0, null);

  /** A plateau told by a person: weighed after soaking and draining, dripping aside. */
  private static final double TOLD_SD_G = 1;

  /** A plateau found: drainage has a tail and the surface holds some water. */
  private static final double FOUND_SD_G = 3;

  /** Growth and settling of the mix between plateaus, g² per day (guess: 0.7 g in a day). */
  private static final double GROWTH_VAR_PER_DAY = 0.5;

  /** A month without a plateau: time to ask for a drained weighing (project choice). */
  private static final double OLD_DAYS = 28;

  /** Whether a plateau was ever seen. */
  public boolean learned() {
    return at != null;
  }

  /** Whether it is so long since a plateau that a drained weighing should be asked for. */
  public boolean old(Instant now) {
    return !learned() || Elapsed.hours(at, now) > OLD_DAYS * 24;
  }

  /** After a person said: soaked and drained just now. */
  public Capacity told(Instant now, double plateauG) {
    return new Capacity(plateauG, learned() ? firstG : plateauG, TOLD_SD_G * TOLD_SD_G, now);
  }

  /** After a plateau showed by itself. */
  public Capacity found(Instant now, double plateauG) {
    double seenVar = FOUND_SD_G * FOUND_SD_G;
    if (!learned()) {
      return new Capacity(plateauG, plateauG, seenVar, now);
    }
    double var = varG2 + GROWTH_VAR_PER_DAY * Elapsed.hours(at, now) / 24;
    double gain = var / (var + seenVar);
    return new Capacity(massG + gain * (plateauG - massG), firstG, var * (1 - gain), now);
  }

  /** What the plant gained since the first plateau, g, 0 or more. */
  public double growthG() {
    return Math.max(0, massG - firstG);
  }

  /** The predicted weights of a cup with what was learned put over them. */
  public WeightFrame over(WeightFrame predicted) {
    if (!learned()) {
      return predicted;
    }
    double dryG = predicted.dryG() + growthG();
    double capacityG = Math.max(massG, dryG + 1);
    return new WeightFrame(
        dryG,
        capacityG,
        Math.max(predicted.saturatedG() + growthG(), capacityG),
        predicted.availableMl());
  }
}
