package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;

/**
 * How much more than its use a root zone must get so that salts do not build up. Source: FAO
 * Irrigation and Drainage Paper 29 rev. 1 (Ayers and Westcot 1985). Its figures are for fields; in
 * a cup they give the order of magnitude.
 */
public final class Leaching {
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
}
