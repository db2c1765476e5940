package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;
import java.util.OptionalDouble;

/**
 * Mass of a cup that first loses what air and light ask for, at an even rate, and from a critical
 * mass on only what the mix gives up, ever slower: {@code W = W0 - E t} up to the break, then
 * {@code Wr + (Wc - Wr) exp(-(t - tc) / tau)}. Mass has no jump at the break; its rate may drop
 * there.
 *
 * @param startG W0, mass at time 0
 * @param evenRateG E, loss per unit of time in the first stage, above 0
 * @param breakAt tc, when the second stage begins, 0 or more
 * @param residualG Wr, the mass it tends to, below the mass at the break
 * @param tau time constant of the second stage, above 0
 */
public record TwoStageDryDown(
    double startG, double evenRateG, double breakAt, double residualG, double tau) {
  /**
   * @throws IllegalArgumentException for a figure out of range
   */
  public TwoStageDryDown {
    Argument.finite("startG", startG);
    Argument.above("evenRateG", evenRateG, 0, Double.MAX_VALUE);
    Argument.within("breakAt", breakAt, 0, Double.MAX_VALUE);
    Argument.below("residualG", residualG, -Double.MAX_VALUE, startG - evenRateG * breakAt);
    Argument.above("tau", tau, 0, Double.MAX_VALUE);
  }

  /**
   * The curve whose rate has no jump either: {@code tau = (Wc - Wr) / E}.
   *
   * @param criticalG Wc, mass at the break, above {@code residualG}, at most {@code startG}
   * @throws IllegalArgumentException for a figure out of range
   */
  public static TwoStageDryDown continuous(
      double startG, double criticalG, double residualG, double evenRateG) {
    Argument.above("evenRateG", evenRateG, 0, Double.MAX_VALUE);
    Argument.above("criticalG", criticalG, residualG, startG);
    return new TwoStageDryDown(
        startG,
        evenRateG,
        (startG - criticalG) / evenRateG,
        residualG,
        (criticalG - residualG) / evenRateG);
  }

  /** Mass at the break, g. */
  public double criticalG() {
    return startG - evenRateG * breakAt;
  }

  /** Mass at a time, g. */
  public double massG(double time) {
    return time <= breakAt
        ? startG - evenRateG * time
        : residualG + (criticalG() - residualG) * Math.exp(-(time - breakAt) / tau);
  }

  /** When the cup will have come down to a mass; never at or below the residual one. */
  public OptionalDouble timeAt(double grossG) {
    if (grossG >= criticalG()) {
      return OptionalDouble.of((startG - grossG) / evenRateG);
    }
    double above = grossG - residualG;
    return above > 0
        ? OptionalDouble.of(breakAt + tau * Math.log((criticalG() - residualG) / above))
        : OptionalDouble.empty();
  }
}
