package dev.cupwarden.core.weighing;

import dev.cupwarden.core.argument.Argument;

/**
 * Maximum permissible errors of a scale of accuracy class III, as OIML R 76 (table 6) gives them at
 * initial verification; in service they are doubled.
 *
 * @param intervalG the verification interval e that the grower chooses, above 0, at most 1000 g
 */
public record ClassThree(double intervalG) {
  private static final double MOST_INTERVALS = 10_000;

  /**
   * @throws IllegalArgumentException for an interval out of range
   */
  public ClassThree {
    Argument.above("intervalG", intervalG, 0, 1000);
  }

  /**
   * Permissible error of either sign at a load, g: 0.5 e up to 500 e, 1 e up to 2000 e, 1.5 e up to
   * 10 000 e.
   *
   * @param loadG 0 to 10 000 e
   * @throws IllegalArgumentException outside of that range
   */
  public double permissibleG(double loadG) {
    double intervals = Argument.within("loadG", loadG, 0, MOST_INTERVALS * intervalG) / intervalG;
    // A load that is a whole number of intervals may come out a hair above it.
    double whole = Math.rint(intervals);
    double n = Math.abs(intervals - whole) < 1e-9 * MOST_INTERVALS ? whole : intervals;
    return n <= 500 ? 0.5 * intervalG : n <= 2000 ? intervalG : 1.5 * intervalG;
  }
}
