package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;

/**
 * Water that a plant can still transpire, by the weights of its cup. The end of it is the mass at
 * which daily loss has sunk below a tenth of a well-watered cup's (literature on dry-downs of
 * potted plants).
 *
 * @param fullG mass when well watered, g
 * @param endG mass at the end, below {@code fullG}, g
 */
public record TranspirableWater(double fullG, double endG) {
  /**
   * @throws IllegalArgumentException for NaN, or an end at or above the full mass
   */
  public TranspirableWater {
    Argument.finite("fullG", fullG);
    Argument.below("endG", endG, -Double.MAX_VALUE, fullG);
  }

  /**
   * Fraction of transpirable soil water (FTSW): 1 when well watered, 0 at the end; beyond them for
   * wetter and drier cups.
   *
   * @param grossG mass on the scale, finite
   * @throws IllegalArgumentException for NaN
   */
  public double fraction(double grossG) {
    return (Argument.finite("grossG", grossG) - endG) / (fullG - endG);
  }
}
