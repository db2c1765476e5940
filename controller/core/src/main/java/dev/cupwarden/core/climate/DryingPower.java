package dev.cupwarden.core.climate;

/**
 * What drives loss of water from leaves and mix, kPa: the vapour pressure deficit and a constant,
 * since some still evaporates in nearly saturated air.
 */
public final class DryingPower {
  /** Our choice. */
  private static final double STILL_AIR_KPA = 0.1;

  private DryingPower() {}

  /** With that vapour pressure deficit, kPa, 0 or more. */
  public static double kpa(double vpdKpa) {
    return STILL_AIR_KPA + vpdKpa;
  }
}
