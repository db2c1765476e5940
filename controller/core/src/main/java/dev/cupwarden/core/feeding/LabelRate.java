package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;
import dev.cupwarden.core.setup.Feed;

/**
 * A feed at its label's rate: label strength 1. Strengths count as parts of it.
 *
 * @param analysis what the bag holds
 * @param gPerL the label's rate, above 0, at most 1000 g per L
 */
public record LabelRate(Analysis analysis, double gPerL) {
  /**
   * @throws IllegalArgumentException for a rate out of range
   */
  public LabelRate {
    Argument.above("gPerL", gPerL, 0, 1000);
  }

  /** The label of a bench's feed. */
  public static LabelRate of(Feed feed) {
    return new LabelRate(Analysis.of(feed), feed.labelGPerL());
  }

  /**
   * N, P and K as elements, mg, in a volume at a label strength. For mg per L give 1000 mL.
   *
   * @param strength label strength, 0 or more
   * @param volumeMl 0 or more
   * @throws IllegalArgumentException for NaN or a negative value
   */
  public Nutrients elementsMg(double strength, double volumeMl) {
    return analysis.elementsMg(feedG(strength, volumeMl));
  }

  /**
   * Dry feed to dissolve, g, for a volume at a label strength.
   *
   * @param strength label strength, 0 or more
   * @param volumeMl 0 or more
   * @throws IllegalArgumentException for NaN or a negative value
   */
  public double feedG(double strength, double volumeMl) {
    Argument.within("strength", strength, 0, 1e4);
    Argument.within("volumeMl", volumeMl, 0, 1e9);
    return gPerL * strength * volumeMl / 1000;
  }

  /**
   * Level spoons to dissolve for a volume at a label strength. Bulk density varies from bag to bag:
   * weigh a spoon, or better the feed.
   *
   * @param spoonG mass of one level spoon as weighed, above 0, at most 100 g
   * @throws IllegalArgumentException outside of that range, or as {@link #feedG}
   */
  public double spoons(double strength, double volumeMl, double spoonG) {
    return feedG(strength, volumeMl) / Argument.above("spoonG", spoonG, 0, 100);
  }

  /**
   * Rate of a label that gives an amount for a volume of water, g per L.
   *
   * @param amountG mass of the amount (spoons times the mass of one), 0 to 1e6 g
   * @param perMl volume of water it is for, above 0, at most 1e9 mL
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double gPerL(double amountG, double perMl) {
    return Argument.within("amountG", amountG, 0, 1e6)
        / Argument.above("perMl", perMl, 0, 1e9)
        * 1000;
  }
}
