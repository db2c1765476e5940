package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;

/**
 * Pore space of a mix, as parts of its volume.
 *
 * @param total all pores, 0 to 1
 * @param air pores that drain, 0 to {@code total}
 */
public record Porosity(double total, double air) {
  /**
   * @throws IllegalArgumentException for a part out of range
   */
  public Porosity {
    Argument.within("total", total, 0, 1);
    Argument.within("air", air, 0, total);
  }

  /**
   * By the pot test: plug the holes, fill up with water until it stands at the surface, unplug,
   * catch what drains in a quarter of an hour. Source: Purdue University, controlled environment
   * agriculture pages.
   *
   * @param potMl volume of the mix, above 0, at most 1e6 mL
   * @param toSaturateMl water it took to fill the dry mix, 0 to {@code potMl}
   * @param drainedMl water that ran out, 0 to {@code toSaturateMl}
   * @throws IllegalArgumentException outside of those ranges
   */
  public static Porosity byPotTest(double potMl, double toSaturateMl, double drainedMl) {
    Argument.above("potMl", potMl, 0, 1e6);
    Argument.within("toSaturateMl", toSaturateMl, 0, potMl);
    Argument.within("drainedMl", drainedMl, 0, toSaturateMl);
    return new Porosity(toSaturateMl / potMl, drainedMl / potMl);
  }

  /**
   * All pores by density, as a part of volume: {@code 1 - bulk / particle}, particle density from
   * organic matter at 1550 and ash at 2650 kg/m3. Source: EN 13041 (from memory).
   *
   * @param dryDensityGPerMl as filled, 0 to 1.5 g/mL
   * @param organicPart organic matter as a part of dry mass, 0 to 1
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double totalByDensity(double dryDensityGPerMl, double organicPart) {
    Argument.within("dryDensityGPerMl", dryDensityGPerMl, 0, 1.5);
    return 1 - dryDensityGPerMl / particleDensityGPerMl(organicPart);
  }

  /**
   * Density of the solid itself, g/mL. Source: EN 13041 (from memory).
   *
   * @param organicPart organic matter as a part of dry mass, 0 to 1
   * @throws IllegalArgumentException outside of that range
   */
  public static double particleDensityGPerMl(double organicPart) {
    Argument.within("organicPart", organicPart, 0, 1);
    return 1 / (organicPart / 1.55 + (1 - organicPart) / 2.65);
  }

  /** Water held once drained, part of volume. */
  public double water() {
    return total - air;
  }

  /** Air as a part of the pores, the basis on which 20 to 25 % is called ideal. */
  public double airOfPores() {
    return total == 0 ? 0 : air / total;
  }
}
