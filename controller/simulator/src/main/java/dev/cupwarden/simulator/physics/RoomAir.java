package dev.cupwarden.simulator.physics;

import dev.cupwarden.simulator.world.Air;

/**
 * The air about the cups at one moment.
 *
 * @param airC air temperature, °C
 * @param rhPct relative humidity, percent
 * @param rootC temperature of the mix, °C; it follows the air with hours of lag
 * @param lightUmolPerM2S photon flux at the leaves, µmol m⁻² s⁻¹
 * @param vpdKpa vapour pressure deficit of the air, kPa
 */
public record RoomAir(
    double airC, double rhPct, double rootC, double lightUmolPerM2S, double vpdKpa) implements Air {

  /** With the deficit computed from temperature and humidity. */
  public static RoomAir of(double airC, double rhPct, double rootC, double lightUmolPerM2S) {
    double vpdKpa = saturationKpa(airC) * (1 - rhPct / 100);
    return new RoomAir(airC, rhPct, rootC, lightUmolPerM2S, vpdKpa);
  }

  /** Any air, with the deficit that this world finds in it. */
  static RoomAir of(Air air) {
    return air instanceof RoomAir own
        ? own
        : of(air.airC(), air.rhPct(), air.rootC(), air.lightUmolPerM2S());
  }

  /**
   * Saturation vapour pressure over water, kPa: Buck (1981, J. Appl. Meteorol. 20:1527), with the
   * coefficients of his 1996 revision: {@code 0.61121 exp((18.678 - T/234.5) T / (257.14 + T))}, T
   * in °C. Another formula than the controller's on purpose.
   */
  public static double saturationKpa(double tempC) {
    return 0.61121 * StrictMath.exp((18.678 - tempC / 234.5) * tempC / (257.14 + tempC));
  }
}
