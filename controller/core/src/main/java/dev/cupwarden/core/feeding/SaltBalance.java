package dev.cupwarden.core.feeding;

import dev.cupwarden.core.setup.Feed;

/**
 * Salts of one cup, as conductivity times volume (mS/cm x mL): what came in with water and feed,
 * less what ran away and what the plant took.
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
   * Of the water's own salts, as long as feed is there to go with them: for 100 mg of N leaves hold
   * 33 mg of calcium and 13 mg of magnesium at the least that is adequate (Epstein 1965, from
   * memory), 2.8 meq, which feeds of N, P and K do not bring; 10 meq/L are 1 mS/cm (FAO-29). Less
   * than that is credited, so that the balance errs high.
   */
  private static final double OWN_TAKEN_MS_PER_CM = 0.2;

  /**
   * Above this, plain water only: the upper end of the low band of pour-through readings, meant for
   * seedlings and salt-sensitive plants (UMass and NC State HIL 590 tables).
   */
  public static final double MOST_MS_PER_CM =
      RootMediumSalt.NORMAL.fromMsPerCm(RootMediumSalt.Extract.POUR_THROUGH);

  /**
   * From here on, where the low band begins, feed is thinned, in proportion, to none at the limit:
   * our choice. A mix that holds 100 mg/L N of a common feed in water of 0.3 mS/cm lies just below
   * it.
   */
  private static final double TRIMMED_FROM_MS_PER_CM =
      RootMediumSalt.LOW.fromMsPerCm(RootMediumSalt.Extract.POUR_THROUGH);

  /** The part of its feed that a cup of that conductivity still gets: 1 to 0. */
  public static double feedPart(double msPerCm) {
    double part = (MOST_MS_PER_CM - msPerCm) / (MOST_MS_PER_CM - TRIMMED_FROM_MS_PER_CM);
    return Math.max(0.0, Math.min(1.0, part));
  }

  /** What is left of that feed in the mix, mL at label strength; 0 where no EC tells. */
  public double labelMl(Feed feed) {
    double labelMsPerCm = feed.labelGPerL() * feed.ecMsPerCmPerGPerL();
    return labelMsPerCm > 0.0 ? feedMsMl / labelMsPerCm : 0.0;
  }

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

  /** Of a mix that holds so much water and nothing else: nobody wets one with distilled water. */
  public static SaltBalance wetted(double ml, double waterEcMsPerCm) {
    return NONE.plus(ml, waterEcMsPerCm, waterEcMsPerCm);
  }

  /**
   * After the cup lost so much water to air and plant, with that feed in its mix.
   *
   * @param throughLeaves part of it that went through the leaves
   */
  public SaltBalance used(double lostMl, double throughLeaves, Feed feed) {
    if (feed == null || feed.nPct() <= 0.0) {
      return this;
    }
    double nMgPerG = feed.nPct() * 10.0;
    double ecMsPerCm = N_TAKEN_MG_PER_L / nMgPerG * feed.ecMsPerCmPerGPerL();
    double wantedMsMl = lostMl * throughLeaves * ecMsPerCm;
    double takenMsMl = Math.min(feedMsMl, wantedMsMl);
    if (!(takenMsMl > 0.0)) {
      return this;
    }
    double ownMsMl = lostMl * throughLeaves * OWN_TAKEN_MS_PER_CM * takenMsMl / wantedMsMl;
    double left = feedMsMl - takenMsMl;
    return new SaltBalance(Math.max(left, msMl - takenMsMl - ownMsMl), left);
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
