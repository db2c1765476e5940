package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;
import dev.cupwarden.core.setup.Feed;

/**
 * What a bag of soluble feed holds, as printed on it: nitrogen as the element, phosphorus and
 * potassium as their oxides.
 *
 * @param nPct N, 0 to 100 % by mass
 * @param p2o5Pct P2O5, 0 to 100 % by mass
 * @param k2oPct K2O, 0 to 100 % by mass
 */
public record Analysis(double nPct, double p2o5Pct, double k2oPct) {
  // Standard atomic weights, IUPAC.
  private static final double O = 15.999;
  private static final double P = 30.973761998;
  private static final double K = 39.0983;

  /** Part of P in P2O5, by mass; from IUPAC's atomic weights. */
  public static final double P_IN_P2O5 = 2 * P / (2 * P + 5 * O);

  /** Part of K in K2O, by mass; from IUPAC's atomic weights. */
  public static final double K_IN_K2O = 2 * K / (2 * K + O);

  /**
   * @throws IllegalArgumentException for a part out of range, or parts of more than 100 % together
   */
  public Analysis {
    Argument.within("nPct", nPct, 0, 100);
    Argument.within("p2o5Pct", p2o5Pct, 0, 100);
    Argument.within("k2oPct", k2oPct, 0, 100);
    Argument.within("nPct + p2o5Pct + k2oPct", nPct + p2o5Pct + k2oPct, 0, 100);
  }

  /** The analysis of a bench's feed. */
  public static Analysis of(Feed feed) {
    return new Analysis(feed.nPct(), feed.p2o5Pct(), feed.k2oPct());
  }

  /**
   * N, P and K as elements, in mg, of a mass of this feed. For mg per L give g per L.
   *
   * @param feedG mass of dry feed, 0 or more, g
   * @throws IllegalArgumentException for NaN or a negative mass
   */
  public Nutrients elementsMg(double feedG) {
    double mg = 1000 * Argument.within("feedG", feedG, 0, 1e9);
    return new Nutrients(
        mg * nPct / 100, mg * p2o5Pct / 100 * P_IN_P2O5, mg * k2oPct / 100 * K_IN_K2O);
  }
}
