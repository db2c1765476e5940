package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;

/**
 * How far a lack of water throttles a plant. Source: FAO-56 (Allen et al. 1998), chapter 8. In a
 * cup, total available water is that between container capacity and what the plant cannot take.
 * FAO's depletion fractions are for field soils: in cups take 0.5 or less.
 */
public final class WaterStress {
  private WaterStress() {}

  /**
   * Readily available water, in the unit of the total; equation 83.
   *
   * @param total total available water, above 0
   * @param p part of it that can go without stress, 0.1 to 0.8
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double readilyAvailable(double total, double p) {
    return Argument.within("p", p, 0.1, 0.8) * Argument.above("total", total, 0, 1e9);
  }

  /**
   * Stress coefficient: transpiration as a part of the unstressed one, 1 down to 0; equation 84.
   *
   * @param total total available water, above 0
   * @param depleted water gone since capacity, in the same unit; below 0 above capacity
   * @param p part of the total that can go without stress, 0.1 to 0.8
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double coefficient(double total, double depleted, double p) {
    double readily = readilyAvailable(total, p);
    Argument.finite("depleted", depleted);
    if (depleted <= readily) {
      return 1;
    }
    return Math.max(0, (total - depleted) / (total - readily));
  }

  /**
   * The part that can go without stress, fitted to the day's demand, 0.1 to 0.8: less under a
   * thirsty sky; chapter 8, note to table 22.
   *
   * @param tableP for 5 mm per day, 0.1 to 0.8
   * @param cropEtMmPerD the crop's evapotranspiration, 0 to 30 mm per day
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double fractionFor(double tableP, double cropEtMmPerD) {
    Argument.within("tableP", tableP, 0.1, 0.8);
    Argument.within("cropEtMmPerD", cropEtMmPerD, 0, 30);
    return Math.max(0.1, Math.min(0.8, tableP + 0.04 * (5 - cropEtMmPerD)));
  }
}
