package dev.cupwarden.core.climate;

import dev.cupwarden.core.argument.Argument;

/**
 * Water vapour in air, in kPa. Source of all formulas: FAO Irrigation and Drainage Paper 56 (Allen
 * et al. 1998), chapter 3.
 */
public final class VapourPressure {
  private static final double COLDEST_C = -60;
  private static final double HOTTEST_C = 100;

  private VapourPressure() {}

  /**
   * Saturation vapour pressure over water, kPa; equation 11.
   *
   * @param tempC air temperature, -60 to 100 °C
   * @throws IllegalArgumentException outside of that range
   */
  public static double saturationKpa(double tempC) {
    Argument.within("tempC", tempC, COLDEST_C, HOTTEST_C);
    return 0.6108 * Math.exp(17.27 * tempC / (tempC + 237.3));
  }

  /**
   * Vapour pressure deficit of the air, kPa: what the air could still take up.
   *
   * @param tempC air temperature, -60 to 100 °C
   * @param rhPct relative humidity, 0 to 100 %
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double deficitKpa(double tempC, double rhPct) {
    Argument.within("rhPct", rhPct, 0, 100);
    return saturationKpa(tempC) * (100 - rhPct) / 100;
  }
}
