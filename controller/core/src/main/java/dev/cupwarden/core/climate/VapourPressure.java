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
   * Actual vapour pressure from relative humidity, kPa.
   *
   * @param tempC air temperature, -60 to 100 °C
   * @param rhPct relative humidity, 0 to 100 %
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double actualKpa(double tempC, double rhPct) {
    return saturationKpa(tempC) * Argument.within("rhPct", rhPct, 0, 100) / 100;
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

  /**
   * Deficit between a leaf and the air, kPa: what drives the leaf's water out. Negative where dew
   * falls on the leaf.
   *
   * @param leafC temperature of the leaf, -60 to 100 °C
   * @param airC air temperature, -60 to 100 °C
   * @param rhPct relative humidity of the air, 0 to 100 %
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double leafDeficitKpa(double leafC, double airC, double rhPct) {
    return saturationKpa(leafC) - actualKpa(airC, rhPct);
  }

  /**
   * Deficit of a day known only by its extremes, as a thermo-hygrometer with a memory shows them,
   * kPa; equations 12 and 17. The mean of two saturation pressures, as the pressure at the mean
   * temperature would be too low.
   *
   * @param minC least temperature, -60 to 100 °C
   * @param maxC greatest temperature, {@code minC} to 100 °C
   * @param minRhPct least relative humidity, taken to fall with {@code maxC}, 0 to 100 %
   * @param maxRhPct greatest relative humidity, taken to fall with {@code minC}, 0 to 100 %
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double dayDeficitKpa(double minC, double maxC, double minRhPct, double maxRhPct) {
    return daySaturationKpa(minC, maxC) - dayActualKpa(minC, maxC, minRhPct, maxRhPct);
  }

  /** Saturation pressure of a day by its extremes, kPa; equation 12. Ranges as above. */
  public static double daySaturationKpa(double minC, double maxC) {
    Argument.within("maxC", maxC, minC, HOTTEST_C);
    return (saturationKpa(minC) + saturationKpa(maxC)) / 2;
  }

  /** Actual pressure of a day by its extremes, kPa; equation 17. Ranges as above. */
  public static double dayActualKpa(double minC, double maxC, double minRhPct, double maxRhPct) {
    Argument.within("maxRhPct", maxRhPct, minRhPct, 100);
    return (actualKpa(minC, maxRhPct) + actualKpa(maxC, minRhPct)) / 2;
  }

  /**
   * Temperature at which this air would be saturated, °C; equation 11 turned round.
   *
   * @param tempC air temperature, -60 to 100 °C
   * @param rhPct relative humidity, above 0, at most 100 %
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double dewPointC(double tempC, double rhPct) {
    Argument.above("rhPct", rhPct, 0, 100);
    double x = Math.log(actualKpa(tempC, rhPct) / 0.6108);
    return 237.3 * x / (17.27 - x);
  }

  /**
   * Actual vapour pressure from an aspirated psychrometer, kPa; equations 15 and 16.
   *
   * @param wetC wet bulb, -60 °C to {@code dryC}
   * @param dryC dry bulb, at most 100 °C
   * @param pressureKpa of the air, 30 to 120 kPa
   * @throws IllegalArgumentException outside of those ranges, or where the two bulbs cannot belong
   *     together, as the pressure would be negative
   */
  public static double fromWetBulbKpa(double wetC, double dryC, double pressureKpa) {
    Argument.within("wetC", wetC, COLDEST_C, dryC);
    Argument.within("dryC", dryC, COLDEST_C, HOTTEST_C);
    Argument.within("pressureKpa", pressureKpa, 30, 120);
    double actual = saturationKpa(wetC) - 0.000662 * pressureKpa * (dryC - wetC);
    return Argument.within("vapour pressure by these two bulbs", actual, 0, 120);
  }

  /**
   * Air pressure to expect at an altitude, kPa; equation 7.
   *
   * @param altitudeM above sea level, -500 to 9000 m
   * @throws IllegalArgumentException outside of that range
   */
  public static double pressureKpa(double altitudeM) {
    Argument.within("altitudeM", altitudeM, -500, 9000);
    return 101.3 * Math.pow((293 - 0.0065 * altitudeM) / 293, 5.26);
  }
}
