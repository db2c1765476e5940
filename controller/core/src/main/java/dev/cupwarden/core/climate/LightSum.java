package dev.cupwarden.core.climate;

import dev.cupwarden.core.argument.Argument;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * Light that fell on the bench since a start, usually a day's: the daily light integral. Between
 * two readings light counts as their mean; over a gap nothing is counted, and the gap is told.
 *
 * @param molPerM2 light so far, mol per m2
 * @param missed time over which light is unknown
 * @param last the newest reading
 */
public record LightSum(double molPerM2, Duration missed, Optional<LightAt> last) {
  /** No light yet. */
  public static final LightSum NONE = new LightSum(0, Duration.ZERO, Optional.empty());

  /**
   * One reading of a light sensor.
   *
   * @param at when
   * @param umolPerM2S photosynthetic photon flux density, 0 to 5000 umol per m2 and s
   */
  public record LightAt(Instant at, double umolPerM2S) {
    /**
     * @throws IllegalArgumentException for a flux out of range
     */
    public LightAt {
      Argument.within("umolPerM2S", umolPerM2S, 0, 5000);
    }
  }

  /**
   * The sum with one more reading.
   *
   * @param reading not older than the last
   * @param longestGap readings further apart than this have unknown light between them
   * @throws IllegalArgumentException for a reading older than the last
   */
  public LightSum plus(LightAt reading, Duration longestGap) {
    if (last.isEmpty()) {
      return new LightSum(molPerM2, missed, Optional.of(reading));
    }
    Duration step = Duration.between(last.get().at(), reading.at());
    if (step.isNegative()) {
      throw new IllegalArgumentException(
          "at must not be before " + last.get().at() + ", not " + reading.at());
    }
    if (step.compareTo(longestGap) > 0) {
      return new LightSum(molPerM2, missed.plus(step), Optional.of(reading));
    }
    double meanUmol = (last.get().umolPerM2S() + reading.umolPerM2S()) / 2;
    return new LightSum(
        molPerM2 + ofLamp(meanUmol, step.toMillis() / 3.6e6), missed, Optional.of(reading));
  }

  /**
   * Light of a steady lamp, mol per m2.
   *
   * @param umolPerM2S its flux density at the bench, 0 to 5000 umol per m2 and s
   * @param hours how long it burns, 0 or more
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double ofLamp(double umolPerM2S, double hours) {
    Argument.within("umolPerM2S", umolPerM2S, 0, 5000);
    Argument.within("hours", hours, 0, 1e6);
    return umolPerM2S * 3600 * hours / 1e6;
  }
}
