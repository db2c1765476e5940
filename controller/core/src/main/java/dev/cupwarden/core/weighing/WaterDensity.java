package dev.cupwarden.core.weighing;

import dev.cupwarden.core.argument.Argument;

/** Density of air-free water and the volume of water that was weighed in air. */
public final class WaterDensity {
  private static final double AIR_KG_PER_M3 = 1.2;
  private static final double WEIGHTS_KG_PER_M3 = 8000;

  private WaterDensity() {}

  /**
   * Density at atmospheric pressure, kg/m3. Source: Tanaka et al. 2001, recommended by CIPM.
   *
   * @param tempC 0 to 40 °C
   * @throws IllegalArgumentException outside of that range
   */
  public static double kgPerM3(double tempC) {
    double t = Argument.within("tempC", tempC, 0, 40);
    double fromDensest = t - 3.983035;
    return 999.974950
        * (1 - fromDensest * fromDensest * (t + 301.797) / (522_528.9 * (t + 69.34881)));
  }

  /**
   * Volume of one gram of water as a scale in air shows it, mL: density, with the buoyancy of water
   * and of the steel weights that the scale was calibrated with. Source: ISO/TR 20461, factor Z.
   *
   * @param tempC 0 to 40 °C
   * @throws IllegalArgumentException outside of that range
   */
  public static double mlPerG(double tempC) {
    double density = kgPerM3(tempC);
    return 1000 / density * (1 - AIR_KG_PER_M3 / WEIGHTS_KG_PER_M3) / (1 - AIR_KG_PER_M3 / density);
  }

  /**
   * Volume of weighed water, for the calibration of a pump, mL.
   *
   * @param shownG what the scale shows, 0 to 1e6 g
   * @param tempC 0 to 40 °C
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double volumeMl(double shownG, double tempC) {
    return Argument.within("shownG", shownG, 0, 1e6) * mlPerG(tempC);
  }
}
