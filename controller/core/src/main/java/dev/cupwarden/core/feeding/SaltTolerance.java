package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;

/**
 * Yield under salt: full up to a threshold, then falling along a straight line. Source: Maas and
 * Hoffman 1977, as in FAO-29 rev. 1, table 4. Measured on grown plants; cuttings bear less.
 *
 * @param thresholdMsPerCm EC of the saturation extract up to which nothing is lost, 0 to 50 mS/cm
 * @param slopePctPerMsPerCm loss per mS/cm beyond, above 0, at most 1000 %
 */
public record SaltTolerance(double thresholdMsPerCm, double slopePctPerMsPerCm) {
  /**
   * @throws IllegalArgumentException for a figure out of range
   */
  public SaltTolerance {
    Argument.within("thresholdMsPerCm", thresholdMsPerCm, 0, 50);
    Argument.above("slopePctPerMsPerCm", slopePctPerMsPerCm, 0, 1000);
  }

  /**
   * Yield as a part of the saltless one, 0 to 100 %.
   *
   * @param ecMsPerCm EC of the saturation extract, 0 to 200 mS/cm
   * @throws IllegalArgumentException outside of that range
   */
  public double yieldPct(double ecMsPerCm) {
    Argument.within("ecMsPerCm", ecMsPerCm, 0, 200);
    double loss = slopePctPerMsPerCm * (ecMsPerCm - thresholdMsPerCm);
    return Math.max(0, Math.min(100, 100 - loss));
  }

  /**
   * EC of the saturation extract at which that much is left, mS/cm; the inverse below 100 %.
   *
   * @param yieldPct 0 to 100 %
   * @throws IllegalArgumentException outside of that range
   */
  public double ecMsPerCmAt(double yieldPct) {
    return thresholdMsPerCm
        + (100 - Argument.within("yieldPct", yieldPct, 0, 100)) / slopePctPerMsPerCm;
  }
}
