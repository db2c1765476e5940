package dev.cupwarden.core.watering;

/**
 * What part of its passes a cup's weight showed.
 *
 * @param part mean of the last
 * @param passes seen
 */
public record Rises(double part, int passes) {
  public static final Rises NONE = new Rises(1.0, 0);

  private static final double STEP = 0.2;
  private static final int LEAST_PASSES = 2;

  Rises plus(double seen) {
    double step = Math.max(STEP, 1.0 / (passes + 1));
    return new Rises(part + step * (seen - part), passes + 1);
  }

  /** Whether it may speak for the pump. */
  public boolean known() {
    return passes >= LEAST_PASSES;
  }
}
