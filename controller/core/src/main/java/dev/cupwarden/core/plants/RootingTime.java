package dev.cupwarden.core.plants;

/**
 * How soon a plant's cuttings have roots, by warmth at the roots.
 *
 * <p>Degree days: a day at T counts T - T0, and roots are there after D (Tt - T0), where D is the
 * days that the table gives at the warmth Tt. Told as days at the table's warmth, a day at T is
 * worth
 *
 * <pre>
 * (T - T0) / (Tt - T0)    not below 0, and T no more than the warmest that the plant wants
 * </pre>
 *
 * Zalesny, Bauer and Riemenschneider (2004, Silvae Genetica 53: 154-160) reckon the rooting of
 * dormant poplar cuttings in degree days below ground above 10 C. That the same holds of the other
 * plants, and that heat beyond what a plant wants hastens nothing, is our choice.
 *
 * @param days from the first cuttings with roots to the last, at {@code atC}
 * @param atC the warmth at the roots that these days go with, above {@code baseC}
 * @param baseC at and below it nothing comes on
 */
public record RootingTime(Span days, double atC, double baseC) {
  /** Zalesny and others (2004), for poplar; taken for what is not known to root cooler. */
  public static final double USUAL_BASE_C = 10.0;

  /**
   * @throws IllegalArgumentException where the warmth is not above the base
   */
  public RootingTime {
    if (!(baseC < atC)) {
      throw new IllegalArgumentException(
          "days at " + atC + " °C say nothing above a base of " + baseC + " °C");
    }
  }

  /**
   * How many days at the table's warmth a day at another is worth.
   *
   * @param rootC at the roots; NaN where nobody tells of it: then a day is a day
   * @param warmestC more warmth hastens nothing
   */
  public double worth(double rootC, double warmestC) {
    if (Double.isNaN(rootC)) {
      return 1.0;
    }
    double countedC = Math.min(rootC, Math.max(warmestC, atC));
    return Math.max(0.0, (countedC - baseC) / (atC - baseC));
  }
}
