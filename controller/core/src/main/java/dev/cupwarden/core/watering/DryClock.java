package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * Since when a cup has been past its dry line.
 *
 * @param pastSince null while it is not
 */
public record DryClock(Instant pastSince) {
  /** A cup that is not past its dry line. */
  public static final DryClock MOIST = new DryClock(null);

  /** So far back across the line it must be: more than a weight wavers, our choice. */
  private static final double BACK_BY = 0.02;

  /**
   * After a look at the cup.
   *
   * @param depletion NaN, where it is not known, changes nothing
   */
  public DryClock after(double depletion, CupLines lines, Instant at) {
    if (depletion > lines.dry()) {
      return pastSince == null ? new DryClock(at) : this;
    }
    return depletion < lines.dry() - BACK_BY ? MOIST : this;
  }

  /** How long it has been past its line; empty while it is not. */
  public Optional<Duration> past(Instant at) {
    return Optional.ofNullable(pastSince).map(since -> Duration.between(since, at));
  }
}
