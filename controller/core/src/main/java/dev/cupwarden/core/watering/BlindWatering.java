package dev.cupwarden.core.watering;

import dev.cupwarden.core.estimate.DistrustCode;
import java.time.Duration;

/**
 * Water for a rooted cup whose scale is dead, by what is reckoned of it: half refills by the same
 * lines as any cup's, for as long as the doubt lets it be kept between them. All figures are our
 * choice.
 */
public final class BlindWatering {
  /** A scale that comes back by itself does so within hours; a leafy cup cannot wait a day. */
  private static final Duration AFTER = Duration.ofHours(6);

  /**
   * A depletion known no better than this could lie past either line: nothing more is given, but to
   * a cup that drains before it is too wet.
   */
  public static final double GREATEST_SD = 0.25;

  /** One in twenty lies beyond so many standard deviations on one side (normal distribution). */
  public static final double ONE_IN_TWENTY_SDS = 1.645;

  /** A refill goes half the way. */
  public static final double PART = 0.5;

  private BlindWatering() {}

  /**
   * How long a scale must have been in that doubt: where a weight is shown that no cup has, a
   * person may have put something there for the day.
   */
  public static Duration after(DistrustCode doubt) {
    return doubt.perhapsLoaded() ? BlindRation.AFTER : AFTER;
  }
}
