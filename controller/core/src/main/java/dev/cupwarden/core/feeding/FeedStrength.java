package dev.cupwarden.core.feeding;

/**
 * How strong a cup's feed is to be, and what keeps it so: the least of what its stage may have and
 * of what else is held against that.
 *
 * @param strength label strength
 * @param by what caps it
 * @param value what was found
 * @param threshold what it was held against
 */
public record FeedStrength(double strength, Cap by, double value, double threshold) {
  /** Nothing keeps it down here: the bench's ceiling does. */
  public static final FeedStrength UNBOUND =
      new FeedStrength(Double.POSITIVE_INFINITY, Cap.STAGE, 0.0, 0.0);

  /**
   * Rooting media are best at 18 to 24 °C; uptake falls below and nearly ends at cold: our choice.
   */
  public static final double WARM_ROOTS_C = 18.0;

  /** What can keep feed down; its word is the detail of the limit {@code strength}. */
  public enum Cap {
    STAGE("stage", "label"),
    MOST_N("most-n", "mg/L N"),
    LABEL("label", "label"),
    STOCK("stock", "mg/L N"),
    COOL("cool", "C"),
    SALT("salt", "mS/cm"),
    /** No more than that keeps it up. */
    FLOOR("floor", "label");

    private final String word;
    private final String unit;

    Cap(String word, String unit) {
      this.word = word;
      this.unit = unit;
    }

    public String word() {
      return word;
    }

    /** Of value and threshold. */
    public String unit() {
      return unit;
    }
  }

  /** What a stage may have of a feed of which label strength holds so much nitrogen. */
  public static FeedStrength of(StageFeed stage, double labelNMgPerL) {
    double strength = stage.ofLabel(labelNMgPerL);
    return strength < stage.strength()
        ? new FeedStrength(
            strength, Cap.MOST_N, stage.strength() * labelNMgPerL, stage.mostNMgPerL())
        : new FeedStrength(strength, Cap.STAGE, strength, strength);
  }

  /** The lesser of this and another; of equals this. */
  public FeedStrength lesser(Cap cap, double other, double found, double against) {
    return other < strength ? new FeedStrength(Math.max(0.0, other), cap, found, against) : this;
  }

  /**
   * Kept up to the least that a fed watering carries, but where there is to be none at all.
   *
   * @param floor label strength
   * @param own what the stage may have, which no floor passes
   */
  public FeedStrength atLeast(double floor, double own) {
    double least = Math.min(floor, own);
    boolean none = strength <= 0.0 && (by == Cap.COOL || by == Cap.SALT || by == Cap.LABEL);
    return none || strength >= least ? this : new FeedStrength(least, Cap.FLOOR, strength, least);
  }

  /**
   * The label's allowance spread over a cup's own waterings: {@code T (d / D) / v}, with T the part
   * of the allowance that its stage may use, d the time between waterings, D the label's interval,
   * and v the part of its available water that a watering refills. T = 1, d = D / 2 and v = 1 give
   * the half strength of common practice.
   *
   * @param target T
   * @param everyDays d
   * @param intervalDays D
   * @param refilledPart v, above 0
   */
  public static double spread(
      double target, double everyDays, double intervalDays, double refilledPart) {
    return target * (everyDays / intervalDays) / refilledPart;
  }

  /** The part of its feed that cool roots still take: 1 at 18 °C, 0 at the cold line. */
  public static double coolRootsPart(double rootC, double coldC) {
    if (Double.isNaN(rootC) || coldC >= WARM_ROOTS_C) {
      return 1.0;
    }
    return Math.min(1.0, Math.max(0.0, (rootC - coldC) / (WARM_ROOTS_C - coldC)));
  }
}
