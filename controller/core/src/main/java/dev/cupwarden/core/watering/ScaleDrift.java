package dev.cupwarden.core.watering;

import java.time.Instant;

/**
 * Whether a scale seems to fall by itself. A cup that dries faster has a cause: leaves and lamps
 * rest for some hours of the day, air and neighbours show the rest. What falls faster in every four
 * hours of a day than ever before, and more than the air explains, is laid up here as water that
 * the cup may still hold.
 *
 * @param since when that began; null: nothing is suspected
 * @param unexplainedG lost since then beyond what was foretold, g, 0 or more
 * @param mostPart the most that a day lost beyond what was foretold, as a part of that
 * @param toldAt since when the scale is not believed; null: it is
 * @param seenGPerH loss by the scale when that was told
 * @param foretoldGPerH what was foretold for the same hours
 * @param reckonedG the cup's gross weight when that was told: with what nothing explains
 */
public record ScaleDrift(
    Instant since,
    double unexplainedG,
    double mostPart,
    Instant toldAt,
    double seenGPerH,
    double foretoldGPerH,
    double reckonedG) {
  public static final ScaleDrift NONE = new ScaleDrift(null, 0.0, 0.0, null, 0.0, 0.0, Double.NaN);

  /** Whether the scale is not believed. */
  public boolean told() {
    return toldAt != null;
  }

  /** Suspected since then, with so much that nothing explains. */
  static ScaleDrift suspected(Instant since, double unexplainedG, double seen, double foretold) {
    return new ScaleDrift(since, unexplainedG, 0.0, null, seen, foretold, Double.NaN);
  }

  /** With a day remembered that may have lost more. */
  ScaleDrift atLeast(double part) {
    return with(Math.max(part, mostPart), toldAt, reckonedG);
  }

  /** From here on not believed: {@code ReckonWater} reckons on from this weight. */
  ScaleDrift tell(Instant at, double massG) {
    return with(mostPart, at, massG + unexplainedG);
  }

  private ScaleDrift with(double most, Instant told, double reckoned) {
    return new ScaleDrift(since, unexplainedG, most, told, seenGPerH, foretoldGPerH, reckoned);
  }
}
