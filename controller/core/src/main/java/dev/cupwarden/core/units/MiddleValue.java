package dev.cupwarden.core.units;

import java.util.Arrays;

/** The middle one of several values: the upper of two, so that it is one that was found. */
public final class MiddleValue {
  private MiddleValue() {}

  /**
   * The upper median of the first values; NaN where they are too few to say anything.
   *
   * @param values sorted in place as far as they are known
   * @param known how many of them count, from the first on
   * @param least so many must be known, 1 or more
   */
  public static double of(double[] values, int known, int least) {
    if (known < least) {
      return Double.NaN;
    }
    Arrays.sort(values, 0, known);
    return values[known / 2];
  }
}
