package dev.cupwarden.core.feeding;

import dev.cupwarden.core.setup.Feed;

/**
 * Salts of one cup, as conductivity times volume (mS/cm x mL): what came in with water and feed,
 * less what ran away. What the plant takes up is not counted, so the balance errs high.
 *
 * @param msMl conductivity times volume of all that the cup holds
 */
public record SaltBalance(double msMl) {
  public static final SaltBalance NONE = new SaltBalance(0.0);

  /**
   * Above this, plain water only: the upper end of the low band of pour-through readings, meant for
   * seedlings and salt-sensitive plants (UMass and NC State HIL 590 tables).
   */
  public static final double MOST_MS_PER_CM = 2.6;

  /** Conductivity of water with that strength of feed in it, mS/cm. */
  public static double ecMsPerCm(double waterEcMsPerCm, Feed feed, double strength) {
    return feed == null || strength <= 0.0
        ? waterEcMsPerCm
        : waterEcMsPerCm + strength * feed.labelGPerL() * feed.ecMsPerCmPerGPerL();
  }

  public SaltBalance plus(double ml, double ecMsPerCm) {
    return new SaltBalance(msMl + ml * ecMsPerCm);
  }

  /** After so much water of the cup's own concentration ran away. */
  public SaltBalance drained(double ml, double capacityMl) {
    return new SaltBalance(msMl * Math.max(0.0, 1.0 - ml / capacityMl));
  }

  /** Conductivity of the cup's water at container capacity, mS/cm. */
  public double atCapacityMsPerCm(double capacityMl) {
    return msMl / capacityMl;
  }
}
