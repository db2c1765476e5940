package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;

/**
 * How far a concentrate (stock) is thinned. "1:100" is read in two ways, one per cent apart, so the
 * reading is part of the ratio.
 *
 * @param reading which of the two
 * @param parts the number behind the colon, 1 or more, at most 1e6; {@code ONE_TO} may be 0
 */
public record StockRatio(Reading reading, double parts) {
  /** What the number behind the colon counts. */
  public enum Reading {
    /** One part of stock in so many parts of solution: 1 in 100 leaves 99 parts of water. */
    ONE_IN,
    /** One part of stock to so many parts of water: 1 to 100 makes 101 parts of solution. */
    ONE_TO
  }

  /**
   * @throws IllegalArgumentException for parts out of range
   */
  public StockRatio {
    Argument.within("parts", parts, reading == Reading.ONE_IN ? 1 : 0, 1e6);
  }

  /** Volume of solution from one volume of stock. */
  public double solutionPerStock() {
    return reading == Reading.ONE_IN ? parts : parts + 1;
  }

  /**
   * Stock in a volume of solution, mL.
   *
   * @param solutionMl 0 or more
   * @throws IllegalArgumentException for NaN or a negative volume
   */
  public double stockMl(double solutionMl) {
    return Argument.within("solutionMl", solutionMl, 0, 1e9) / solutionPerStock();
  }
}
