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
}
