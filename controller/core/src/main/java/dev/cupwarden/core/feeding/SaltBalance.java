package dev.cupwarden.core.feeding;

import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.RootStage;
import java.util.Map;

/**
 * Salts of one cup, as conductivity times volume (mS/cm x mL): what came in with water and feed,
 * less what ran away and what the plant took of the feed. The salts of the water itself stay.
 *
 * @param msMl conductivity times volume of all that the cup holds
 * @param feedMsMl of that, what came with feed and has not been taken up
 */
public record SaltBalance(double msMl, double feedMsMl) {
  public static final SaltBalance NONE = new SaltBalance(0.0, 0.0);

  /**
   * Nitrogen that a plant takes up with each litre it transpires, mg/L: some 3 g of dry matter are
   * made for a litre, with 3 to 4 % N in it (Bugbee 2004, Acta Hort. 648:99, from memory). The
   * feed's other salts go in with its nitrogen.
   */
  private static final double N_TAKEN_MG_PER_L = 100.0;

  /**
   * Part of a rooted cup's loss that goes through its leaves, by root stage; the rest leaves the
   * top of the mix and takes no salt along. Our choice, on the low side, so that the balance errs
   * high.
   */
  private static final Map<RootStage, Double> THROUGH_LEAVES =
      Map.of(
          RootStage.STRUCK, 0.0,
          RootStage.WHITE, 0.2,
          RootStage.TOUGHENED, 0.35,
          RootStage.CIRCLING, 0.55);

  /**
   * Above this, plain water only: the upper end of the low band of pour-through readings, meant for
   * seedlings and salt-sensitive plants (UMass and NC State HIL 590 tables).
   */
  public static final double MOST_MS_PER_CM = 2.6;

  /** Conductivity of water with that strength of feed in it, mS/cm. */
  public static double ecMsPerCm(double waterEcMsPerCm, Feed feed, double strength) {
    return feed == null
        ? waterEcMsPerCm
        : waterEcMsPerCm + strength * feed.labelGPerL() * feed.ecMsPerCmPerGPerL();
  }

  /** After so much water of that conductivity, the feed in it included. */
  public SaltBalance plus(double ml, double ecMsPerCm, double waterEcMsPerCm) {
    return new SaltBalance(
        msMl + ml * ecMsPerCm, feedMsMl + ml * Math.max(0.0, ecMsPerCm - waterEcMsPerCm));
  }

  /** As if that had not been given after all. */
  public SaltBalance minus(double ml, double ecMsPerCm, double waterEcMsPerCm) {
    double feed = ml * Math.max(0.0, ecMsPerCm - waterEcMsPerCm);
    double left = Math.max(0.0, feedMsMl - feed);
    return new SaltBalance(Math.max(left, msMl - ml * ecMsPerCm), left);
  }

  /** After the cup lost so much water to air and plant, with that feed in its mix. */
  public SaltBalance used(double lostMl, RootStage stage, Feed feed) {
    if (feed == null || feed.nPct() <= 0.0) {
      return this;
    }
    double nMgPerG = feed.nPct() * 10.0;
    double ecMsPerCm = N_TAKEN_MG_PER_L / nMgPerG * feed.ecMsPerCmPerGPerL();
    double takenMsMl = Math.min(feedMsMl, lostMl * THROUGH_LEAVES.get(stage) * ecMsPerCm);
    return takenMsMl > 0.0 ? new SaltBalance(msMl - takenMsMl, feedMsMl - takenMsMl) : this;
  }

  /** After so much water of the cup's own concentration ran away. */
  public SaltBalance drained(double ml, double capacityMl) {
    double left = Math.max(0.0, 1.0 - ml / capacityMl);
    return new SaltBalance(msMl * left, feedMsMl * left);
  }

  /** Conductivity of the cup's water at container capacity, mS/cm. */
  public double atCapacityMsPerCm(double capacityMl) {
    return msMl / capacityMl;
  }
}
