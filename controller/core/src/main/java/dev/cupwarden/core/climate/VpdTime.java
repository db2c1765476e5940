package dev.cupwarden.core.climate;

import dev.cupwarden.core.argument.Argument;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * Time as a cup feels it: hours weighted by the air's vapour pressure deficit, so that a drying
 * rate found in dry air serves in moist air. Between two readings the deficit counts as their mean;
 * a gap adds nothing and is told.
 *
 * @param kPaH deficit summed over time, kPa h
 * @param missed time over which the deficit is unknown
 * @param last the newest reading
 */
public record VpdTime(double kPaH, Duration missed, Optional<DeficitAt> last) {
  /** Before the first reading. */
  public static final VpdTime NONE = new VpdTime(0, Duration.ZERO, Optional.empty());

  /**
   * One reading of the air.
   *
   * @param at when
   * @param deficitKpa vapour pressure deficit, 0 to 120 kPa
   */
  public record DeficitAt(Instant at, double deficitKpa) {
    /**
     * @throws IllegalArgumentException for a deficit out of range
     */
    public DeficitAt {
      Argument.within("deficitKpa", deficitKpa, 0, 120);
    }
  }

  /**
   * The sum with one more reading.
   *
   * @param reading not older than the last
   * @param longestGap readings further apart than this have an unknown deficit between them
   * @throws IllegalArgumentException for a reading older than the last
   */
  public VpdTime plus(DeficitAt reading, Duration longestGap) {
    if (last.isEmpty()) {
      return new VpdTime(kPaH, missed, Optional.of(reading));
    }
    Duration step = Duration.between(last.get().at(), reading.at());
    if (step.isNegative()) {
      throw new IllegalArgumentException(
          "at must not be before " + last.get().at() + ", not " + reading.at());
    }
    if (step.compareTo(longestGap) > 0) {
      return new VpdTime(kPaH, missed.plus(step), Optional.of(reading));
    }
    double meanKpa = (last.get().deficitKpa() + reading.deficitKpa()) / 2;
    return new VpdTime(kPaH + meanKpa * step.toMillis() / 3.6e6, missed, Optional.of(reading));
  }
}
