package dev.cupwarden.core.watering;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.Objects;

/**
 * How long a cup has stayed wet. Two ways to be wet count: less air than roots need, and sodden:
 * between capacity and refill without drying, since cold and unused is how rot begins.
 *
 * @param wetSince past its wet line since then; null if it is not
 * @param soddenSince not drying since then; null if it is
 * @param soddenAt depletion when it was last known to dry
 */
public record WetClock(Instant wetSince, Instant soddenSince, double soddenAt) {
  public static final WetClock DRYING = new WetClock(null, null, Double.NaN);

  /** From here on a person is warned. After Blaker and MacDonald 1981: rot rises with 24 h. */
  public static final double WARN_AFTER_H = 24.0;

  /** From here on nothing more is given: rot rises again with 48 h of flooding. Our choice. */
  public static final double HOLD_AFTER_H = 48.0;

  /** Drying by less than this in a day is no drying: our choice, two grams or so, above creep. */
  private static final double DRIED_BY = 0.01;

  /** More than this is drying, whatever the neighbours do: our choice. */
  private static final double SURELY_DRIED_BY = 0.03;

  /** A cup that dries by less than this part of what its neighbours do is unused: our choice. */
  private static final double PART_OF_NEIGHBOURS = 1.0 / 3.0;

  /** A cup must come this far back past a line before the clock stops: no flicker at the line. */
  private static final double BACK_BY = 0.01;

  /**
   * The clock after a trusted look at the cup.
   *
   * @param neighboursPerDay by how much depletion grows in the middle cup of the bench within a
   *     day; NaN: not known
   */
  public WetClock look(Instant at, double depletion, CupLines lines, double neighboursPerDay) {
    Instant wet = wetSince;
    if (depletion < lines.wet()) {
      wet = wet == null ? at : wet;
    } else if (wet != null && depletion >= lines.wet() + BACK_BY) {
      wet = null;
    }
    boolean full = depletion <= Math.max(lines.refill(), 0.0) + BACK_BY;
    if (!full) {
      return wet == null && wetSince == null && soddenSince == null
          ? this
          : new WetClock(wet, null, Double.NaN);
    }
    if (soddenSince == null || depletion > soddenAt + driedBy(neighboursPerDay)) {
      return new WetClock(wet, at, depletion);
    }
    double mark = Math.min(soddenAt, depletion);
    return Objects.equals(wet, wetSince) && mark == soddenAt
        ? this
        : new WetClock(wet, soddenSince, mark);
  }

  /** In a bench that hardly dries, a cup that hardly dries is none to warn of. */
  private static double driedBy(double neighboursPerDay) {
    return Double.isNaN(neighboursPerDay)
        ? DRIED_BY
        : Math.max(DRIED_BY, Math.min(SURELY_DRIED_BY, PART_OF_NEIGHBOURS * neighboursPerDay));
  }

  /** Hours of the longer of the two at that time. */
  public double hours(Instant at) {
    return Math.max(hoursSince(wetSince, at), hoursSince(soddenSince, at));
  }

  private static double hoursSince(Instant since, Instant at) {
    return since == null ? 0.0 : Elapsed.hours(since, at);
  }
}
