package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;

/**
 * Mass of a drying cup as {@code W = c + A exp(-k (t - t0))}: the drier, the slower.
 *
 * @param asymptoteG c, the mass it tends to
 * @param amplitudeG A, what lies above that mass at {@code from}, above 0
 * @param ratePerTime k, above 0, per unit of the time it was fitted in
 * @param from t0, in the same time
 */
public record ExponentialDryDown(
    double asymptoteG, double amplitudeG, double ratePerTime, double from) {
  /**
   * @throws IllegalArgumentException for a figure out of range
   */
  public ExponentialDryDown {
    Argument.finite("asymptoteG", asymptoteG);
    Argument.above("amplitudeG", amplitudeG, 0, Double.MAX_VALUE);
    Argument.above("ratePerTime", ratePerTime, 0, Double.MAX_VALUE);
    Argument.finite("from", from);
  }

  /** Mass at a time, g. */
  public double massG(double time) {
    return asymptoteG + amplitudeG * Math.exp(-ratePerTime * (time - from));
  }

  /** Time in which what lies above the asymptote halves. */
  public double halfLife() {
    return Math.log(2) / ratePerTime;
  }
}
