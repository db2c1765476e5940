package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;

/**
 * How much more than its use a root zone must get so that salts do not build up. Source: FAO
 * Irrigation and Drainage Paper 29 rev. 1 (Ayers and Westcot 1985). Its figures are for fields; in
 * a cup they give the order of magnitude.
 */
public final class Leaching {
  /** Part of all uptake by each quarter of the root zone, from the top. */
  private static final double[] UPTAKE = {0.4, 0.3, 0.2, 0.1};

  private Leaching() {}

  /**
   * Leaching requirement, the part of the applied water that must drain, 0 to below 1; equation 9.
   *
   * @param waterMsPerCm EC of the irrigation water, 0 to 100 mS per cm
   * @param soilMsPerCm greatest EC of the saturation extract that the plant bears, above 0, at most
   *     100 mS per cm
   * @throws IllegalArgumentException outside of those ranges, and for water too salty for any
   *     leaching to help
   */
  public static double requirement(double waterMsPerCm, double soilMsPerCm) {
    Argument.within("waterMsPerCm", waterMsPerCm, 0, 100);
    Argument.above("soilMsPerCm", soilMsPerCm, 0, 100);
    double room = 5 * soilMsPerCm - waterMsPerCm;
    if (room <= waterMsPerCm) {
      throw new IllegalArgumentException(
          "waterMsPerCm must be below %s mS/cm (2.5 x soilMsPerCm), not %s: too salty to leach with"
              .formatted(2.5 * soilMsPerCm, waterMsPerCm));
    }
    return waterMsPerCm / room;
  }

  /**
   * Water to apply so that a part of it drains; equation 7.
   *
   * @param used what plant and surface use, 0 or more, in any unit of volume or depth
   * @param leachingFraction part of the applied water that drains, 0 to below 1
   * @return in the unit of {@code used}
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double applied(double used, double leachingFraction) {
    return Argument.within("used", used, 0, 1e9)
        / (1 - Argument.below("leachingFraction", leachingFraction, 0, 1));
  }

  /**
   * EC of the soil water at five depths, the surface and below each quarter of the root zone, as a
   * multiple of the irrigation water's.
   *
   * @param leachingFraction above 0, at most 1
   * @throws IllegalArgumentException outside of that range: undrained salt has no steady state
   */
  public static double[] profile(double leachingFraction) {
    Argument.above("leachingFraction", leachingFraction, 0, 1);
    double[] multiple = new double[UPTAKE.length + 1];
    double left = 1;
    multiple[0] = 1;
    for (int quarter = 0; quarter < UPTAKE.length; quarter++) {
      left -= UPTAKE[quarter] * (1 - leachingFraction);
      multiple[quarter + 1] = 1 / left;
    }
    return multiple;
  }

  /**
   * Concentration factor: EC of the saturation extract of the mean root zone as a multiple of the
   * irrigation water's; table 3. The extract holds twice the water of the drained soil.
   *
   * @param leachingFraction above 0, at most 1
   * @throws IllegalArgumentException outside of that range
   */
  public static double concentrationFactor(double leachingFraction) {
    double sum = 0;
    for (double multiple : profile(leachingFraction)) {
      sum += multiple;
    }
    return sum / (UPTAKE.length + 1) / 2;
  }
}
