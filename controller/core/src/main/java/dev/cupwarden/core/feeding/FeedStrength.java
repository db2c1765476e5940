package dev.cupwarden.core.feeding;

import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;

/**
 * How strong a cup's feed should be so that a label interval brings what its stage wants.
 *
 * <p>strength = T (d / D) / v, with T the stage's target in label-equivalents per label interval D,
 * d the time between waterings and v the part of the available water that a watering refills;
 * clamped to floor and ceiling. T = 1, d = D / 2 and v = 1 give the half strength of common
 * practice.
 */
public final class FeedStrength {
  /** A stage's target is reached over this many label intervals, from half of it: our choice. */
  private static final double INTERVALS_TO_TARGET = 2.0;

  /**
   * Rooting media are best at 18 to 24 °C; uptake falls below and nearly ends at cold: our choice.
   */
  private static final double WARM_ROOTS_C = 18.0;

  private FeedStrength() {}

  /**
   * What a stage wants now, in label-equivalents per label interval: half of the target when the
   * stage was first seen, rising to it over two intervals; 0 for stages that take no feed.
   */
  public static double target(
      FeedingRules rules, RootStage stage, Instant stageSince, Instant at, Duration interval) {
    if (!stage.takesFeed()) {
      return 0.0;
    }
    double full = rules.target().getOrDefault(stage, 0.0);
    double intervals = (double) Duration.between(stageSince, at).toMillis() / interval.toMillis();
    double risen = Math.min(1.0, Math.max(0.0, intervals) / INTERVALS_TO_TARGET);
    return full * (0.5 + 0.5 * risen);
  }

  /**
   * Label strength of the next watering.
   *
   * @param target label-equivalents per label interval
   * @param everyDays days between waterings
   * @param intervalDays the label's interval
   * @param refilledPart part of the available water that a watering refills, above 0
   */
  public static double of(
      FeedingRules rules,
      double target,
      double everyDays,
      double intervalDays,
      double refilledPart) {
    if (target <= 0.0) {
      return 0.0;
    }
    double strength = target * (everyDays / intervalDays) / refilledPart;
    return Math.min(rules.ceiling(), Math.max(rules.floor(), strength));
  }

  /** The part of its feed that cool roots still take: 1 at 18 °C, 0 at the cold line. */
  public static double coolRootsPart(double rootC, double coldC) {
    if (Double.isNaN(rootC) || coldC >= WARM_ROOTS_C) {
      return 1.0;
    }
    return Math.min(1.0, Math.max(0.0, (rootC - coldC) / (WARM_ROOTS_C - coldC)));
  }
}
