package dev.cupwarden.core.estimate;

/**
 * What part of its passes a cup gains, as its weight showed while it was weighed: pump, valve and
 * mix together.
 *
 * @param part mean of the last passes, 1 at first
 * @param passes taken in
 */
public record Arrivals(double part, int passes) {
  /** As ordered. */
  public static final Arrivals USUAL = new Arrivals(1, 0);

  private static final double MEMORY_PASSES = 10;
  private static final double LEAST = 0.6;
  private static final double GREATEST = 1.1;

  /** After a pass that the weight bore out. */
  public Arrivals plus(double riseG, double orderedMl) {
    double seen = Math.max(LEAST, Math.min(GREATEST, riseG / orderedMl));
    double step = Math.max(1.0 / (passes + 2), 1 / MEMORY_PASSES);
    return new Arrivals(part + step * (seen - part), passes + 1);
  }
}
