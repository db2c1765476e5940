package dev.cupwarden.core.watering;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/**
 * Water for a cup whose scale is dead: after a day a part of what it used lately, for each of three
 * days at most. A slow cup's parts are saved up until they are worth a pass. All figures are our
 * choice.
 */
public final class BlindRation {
  /** A scale may come back by itself; a cup can wait a day. */
  public static final Duration AFTER = Duration.ofHours(24);

  private static final Duration AT_MOST = Duration.ofDays(3);

  /** From the first doubt to the last ration. */
  public static final Duration LONGEST = AFTER.plus(AT_MOST);

  /** A rooted cup is better slightly wet than dry, an unrooted one slightly dry. */
  private static final double ROOTED_PART = 0.6;

  private static final double UNROOTED_PART = 0.3;

  private BlindRation() {}

  /** Whether a cup is on the ration, its scale untrusted since then; null: it is trusted. */
  public static boolean on(Instant distrustedSince, Instant at) {
    if (distrustedSince == null) {
      return false;
    }
    Duration dead = Duration.between(distrustedSince, at);
    return dead.compareTo(AFTER) >= 0 && dead.compareTo(AFTER.plus(AT_MOST)) < 0;
  }

  /**
   * What is left of the rations of the days so far, mL; 0 where there is none. All that was given
   * since the scale died counts against them, a person's can as well.
   *
   * @param use where it is not known there is no ration
   */
  public static double ml(
      Instant distrustedSince, Instant at, UseLog use, RootStage stage, List<Given> given) {
    if (!on(distrustedSince, at)) {
      return 0.0;
    }
    double usePerDayG = use.lostPerDayG();
    if (Double.isNaN(usePerDayG)) {
      return 0.0;
    }
    long days = 1 + Duration.between(distrustedSince.plus(AFTER), at).toDays();
    double rationMl = days * usePerDayG * (stage.rooted() ? ROOTED_PART : UNROOTED_PART);
    double givenMl =
        given.stream()
            .filter(one -> !one.at().isBefore(distrustedSince))
            .mapToDouble(Given::ml)
            .sum();
    return Math.max(0.0, rationMl - givenMl);
  }
}
