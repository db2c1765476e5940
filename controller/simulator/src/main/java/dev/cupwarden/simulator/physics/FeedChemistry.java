package dev.cupwarden.simulator.physics;

import dev.cupwarden.core.setup.Feed;

/**
 * What a millilitre brings into a cup.
 *
 * @param nMgPerMl nitrogen in solution at label strength, mg/mL
 * @param feedEcMsPerCm conductivity that feed at label strength adds to the water, mS/cm
 * @param waterEcMsPerCm conductivity of the plain water, mS/cm
 */
public record FeedChemistry(double nMgPerMl, double feedEcMsPerCm, double waterEcMsPerCm) {
  /** Dissolved salts by conductivity: 640 mg/L for each mS/cm (FAO Irrigation and Drainage 29). */
  static final double SALT_MG_PER_ML_AT_ONE_MS_PER_CM = 0.64;

  /** Plain water of that conductivity and no feed. */
  public static FeedChemistry plain(double waterEcMsPerCm) {
    return new FeedChemistry(0, 0, waterEcMsPerCm);
  }

  /** That feed at its label's rate: N percent of grams per litre. */
  public static FeedChemistry of(Feed feed, double waterEcMsPerCm) {
    return new FeedChemistry(
        feed.nPct() / 100 * feed.labelGPerL(),
        feed.ecMsPerCmPerGPerL() * feed.labelGPerL(),
        waterEcMsPerCm);
  }

  double saltMgPerMl(double strength) {
    return (waterEcMsPerCm + strength * feedEcMsPerCm) * SALT_MG_PER_ML_AT_ONE_MS_PER_CM;
  }
}
