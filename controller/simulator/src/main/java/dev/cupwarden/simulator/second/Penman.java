package dev.cupwarden.simulator.second;

/**
 * Loss of water from a surface by the combination equation (Monteith 1965, Symp. Soc. Exp. Biol.
 * 19:205): {@code (D Q + rho cp d / ra) / (D + g (1 + rs / ra))}, in W/m². Vapour over water by
 * Sonntag (1990, Z. Meteorol. 70:340), in hPa of kelvins. Both from memory; tests hold the vapour
 * against tables.
 */
final class Penman {
  /** Heat held by a cubic metre of air, J/K. */
  private static final double AIR_J_PER_M3_K = 1204;

  /** Psychrometer's constant at sea level, Pa/K. */
  private static final double PSYCHROMETER_PA_PER_K = 66.2;

  /** Grams that a watt evaporates in an hour. */
  private static final double G_PER_H_PER_W = 3600 / 2454.0;

  private Penman() {}

  /** Pressure of vapour over water, Pa. */
  static double vapourPa(double tempC) {
    double k = tempC + 273.15;
    return 100
        * StrictMath.exp(
            -6096.9385 / k
                + 16.635794
                - 2.711193e-2 * k
                + 1.673952e-5 * k * k
                + 2.433502 * StrictMath.log(k));
  }

  /** How far the air is from full of vapour, Pa. */
  static double deficitPa(double airC, double rhPct) {
    return vapourPa(airC) * Math.max(0, 1 - rhPct / 100);
  }

  /**
   * Water lost, g/h for each square metre; never below 0.
   *
   * @param netWPerM2 radiation taken up, less what is sent out
   * @param airSPerM resistance of the air at the surface
   * @param ownSPerM resistance of the surface itself
   */
  static double lossGPerHPerM2(
      double airC, double deficitPa, double netWPerM2, double airSPerM, double ownSPerM) {
    double risePa = (vapourPa(airC + 0.5) - vapourPa(airC - 0.5));
    double watts =
        (risePa * netWPerM2 + AIR_J_PER_M3_K * deficitPa / airSPerM)
            / (risePa + PSYCHROMETER_PA_PER_K * (1 + ownSPerM / airSPerM));
    return Math.max(0, watts) * G_PER_H_PER_W;
  }
}
