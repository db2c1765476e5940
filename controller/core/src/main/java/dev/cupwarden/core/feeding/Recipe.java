package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;
import dev.cupwarden.core.setup.Feed;

/**
 * One tank to be mixed: a feed, a volume of solution and the part of the label's strength.
 *
 * @param feed as its bag describes it
 * @param volumeMl of solution, above 0, at most 1e6 mL
 * @param strength label strength, above 0, at most 100; above 1 it is a concentrate
 * @param waterEcMsPerCm of the water it is made with, 0 to 20 mS/cm
 */
public record Recipe(Feed feed, double volumeMl, double strength, double waterEcMsPerCm) {
  /**
   * Dissolved feed spoils, and a label's interval is the longest it may be meant for: our choice.
   * So old, {@code feed-old} is raised.
   */
  public static final double KEEPS_DAYS = 14;

  /** Less is not measured but guessed: our choice. */
  private static final double LEAST_SPOONS = 0.125;

  /**
   * @throws IllegalArgumentException for a figure out of range
   */
  public Recipe {
    Argument.above("volumeMl", volumeMl, 0, 1e6);
    Argument.above("strength", strength, 0, 100);
    Argument.within("waterEcMsPerCm", waterEcMsPerCm, 0, 20);
  }

  /** Dry feed to weigh, g. */
  public double feedG() {
    return LabelRate.of(feed).feedG(strength, volumeMl);
  }

  /** Level US teaspoons, by the spoon that the grower weighed. */
  public double levelTeaspoons() {
    return LabelRate.of(feed).spoons(strength, volumeMl, feed.spoonG());
  }

  /** Whether a spoon can measure it at all: an eighth of a teaspoon is the least. */
  public boolean spoonCanTell() {
    return levelTeaspoons() >= LEAST_SPOONS;
  }

  /** N, P and K of the solution as elements, mg per L. */
  public Nutrients elementsMgPerL() {
    return LabelRate.of(feed).elementsMg(strength, 1000);
  }

  /**
   * EC of the solution, mS/cm; of a concentrate it is more than a straight line tells.
   *
   * @throws IllegalArgumentException for more than 1000 g of feed in a litre
   */
  public double ecMsPerCm() {
    return Conductivity.ofFeed(
        waterEcMsPerCm, feed.labelGPerL() * strength, feed.ecMsPerCmPerGPerL());
  }

  /** Stronger than any root may get: to be thinned before use. */
  public boolean concentrate() {
    return strength > 1;
  }

  /**
   * The concentrate from which this solution is made by thinning.
   *
   * @param stockMl how much concentrate to make, above 0, at most 1e6 mL
   * @throws IllegalArgumentException for a figure out of range
   */
  public Recipe stock(StockRatio ratio, double stockMl) {
    return new Recipe(feed, stockMl, strength * ratio.solutionPerStock(), waterEcMsPerCm);
  }
}
