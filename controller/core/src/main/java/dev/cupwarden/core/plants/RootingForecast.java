package dev.cupwarden.core.plants;

import java.util.Optional;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * How far a cutting has to come until it has roots, in days at the table's warmth: likely, and with
 * the bounds that one in ten comes before and one in ten after.
 *
 * <p>The logarithm of the days is taken as normal, with a twentieth before the first and a
 * twentieth after the last that the table names: our choice. What a person saw cuts it off: where
 * there are no roots the days so far are ruled out. Once its use has risen, that it has roots by
 * then is taken as {@link #RISEN_ODDS} times as likely as before (Bayes' rule); leaves that draw on
 * the wood make a use rise as well. What it says holds of cuttings that root at all.
 *
 * @param earlyDays one in ten comes before
 * @param likelyDays as many before as after
 * @param lateDays one in ten comes after
 */
public record RootingForecast(double earlyDays, double likelyDays, double lateDays) {
  /** Our choice. */
  public static final double RISEN_ODDS = 3.0;

  /** From white roots to toughened ones at the table's warmth: common practice. */
  public static final Span TO_TOUGHEN = new Span(7.0, 21.0);

  private static final NormalDistribution NORMAL = new NormalDistribution();

  /** Of what lies beyond the first and the last that a table names. */
  private static final double BEYOND = 0.05;

  private static final double EARLY = 0.1;
  private static final double LIKELY = 0.5;
  private static final double LATE = 0.9;

  /** Of a cutting that is later than this part of its kind nothing can be foretold: our choice. */
  private static final double LEAST_LEFT = 0.001;

  /** White roots, of a cutting without; empty where it is later than nearly all of its kind. */
  public static Optional<RootingForecast> white(RootingTime time, RootingClock clock) {
    return of(time.days(), clock.noneAtDays(), clock.risenAtDays());
  }

  /**
   * Toughened roots, of a cutting without any.
   *
   * <p>The two waits are independent, so the bounds lie as far off as the root of their squares.
   */
  public RootingForecast thenToughened() {
    RootingForecast more = of(TO_TOUGHEN, 0.0, 0.0).orElseThrow();
    double likely = likelyDays + more.likelyDays;
    return new RootingForecast(
        likely - Math.hypot(likelyDays - earlyDays, more.likelyDays - more.earlyDays),
        likely,
        likely + Math.hypot(lateDays - likelyDays, more.lateDays - more.likelyDays));
  }

  /**
   * Toughened roots, of a cutting with white ones, from the day on which those were seen; empty
   * where it is later than nearly all.
   *
   * @param noneAtDays how long after that a person saw them white still
   */
  public static Optional<RootingForecast> toughened(double noneAtDays) {
    return of(TO_TOUGHEN, noneAtDays, 0.0);
  }

  private static Optional<RootingForecast> of(Span span, double noneAtDays, double risenAtDays) {
    double mean = (Math.log(span.least()) + Math.log(span.most())) / 2.0;
    double sd =
        (Math.log(span.most()) - Math.log(span.least()))
            / (2.0 * NORMAL.inverseCumulativeProbability(1.0 - BEYOND));
    double before = below(noneAtDays, mean, sd);
    double risen = Math.max(before, below(risenAtDays, mean, sd));
    if (1.0 - before < LEAST_LEFT) {
      return Optional.empty();
    }
    double[] bounds = new double[3];
    double[] parts = {EARLY, LIKELY, LATE};
    double weighed = RISEN_ODDS * (risen - before);
    for (int i = 0; i < bounds.length; i++) {
      double wanted = parts[i] * (weighed + 1.0 - risen);
      double part = wanted <= weighed ? before + wanted / RISEN_ODDS : risen + (wanted - weighed);
      bounds[i] = Math.exp(mean + sd * NORMAL.inverseCumulativeProbability(part));
    }
    return Optional.of(new RootingForecast(bounds[0], bounds[1], bounds[2]));
  }

  /** Which part of its kind has roots by then; a span of one day is a step. */
  private static double below(double days, double mean, double sd) {
    if (days <= 0.0) {
      return 0.0;
    }
    double above = Math.log(days) - mean;
    return sd == 0.0 ? (above >= 0.0 ? 1.0 : 0.0) : NORMAL.cumulativeProbability(above / sd);
  }
}
