package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Vessel;

/**
 * What one cup can hold, predicted from vessel, mix and cutting before it was ever weighed. Water
 * counts as 1 g per mL. Made by {@link #of}.
 *
 * @param volumeMl volume of the mix
 * @param dryGrossG mass of vessel, dry mix and cutting
 * @param capacityMl water that stays when drained (container capacity)
 * @param saturatedMl water with every pore full
 * @param availableMl water from container capacity down to what the cutting cannot take
 * @param leastAirMl air below which roots suffocate
 */
public record CupWater(
    double volumeMl,
    double dryGrossG,
    double capacityMl,
    double saturatedMl,
    double availableMl,
    double leastAirMl) {
  /** Air beyond the mix's least that keeps warm roots safe, as a fraction of volume: our choice. */
  private static final double SAFE_ABOVE_LEAST = 0.05;

  /**
   * The figures of one cup.
   *
   * @param cuttingG mass of the cutting, 0 or more
   * @throws IllegalArgumentException naming the value out of its range; also for a mix of which the
   *     cutting can take nothing in this vessel
   */
  public static CupWater of(Vessel vessel, Mix mix, double cuttingG) {
    TaperedCup cup = TaperedCup.of(vessel);
    VanGenuchten retention = VanGenuchten.of(mix);
    double theta = ContainerCapacity.theta(retention, cup);
    Argument.within("emptyG", vessel.emptyG(), 0, 1e6);
    Argument.within("cuttingG", cuttingG, 0, 1e6);
    Argument.within("dryDensityGPerMl", mix.dryDensityGPerMl(), 0, 3);
    Argument.within("leastAir", mix.leastAir(), 0, mix.saturated());
    Argument.below("unavailable", mix.unavailable(), 0, theta);
    double volumeMl = cup.volumeMl();
    return new CupWater(
        volumeMl,
        vessel.emptyG() + mix.dryDensityGPerMl() * volumeMl + cuttingG,
        theta * volumeMl,
        mix.saturated() * volumeMl,
        (theta - mix.unavailable()) * volumeMl,
        mix.leastAir() * volumeMl);
  }

  /** Air at container capacity, as a fraction of volume: total porosity less water. */
  public double airAtCapacity() {
    return (saturatedMl - capacityMl) / volumeMl;
  }

  /** Mass on the scale at container capacity, g. */
  public double capacityGrossG() {
    return dryGrossG + capacityMl;
  }

  /** Mass on the scale with every pore full, g. */
  public double saturatedGrossG() {
    return dryGrossG + saturatedMl;
  }

  /** Mass on the scale at which air falls to the mix's least air, g. */
  public double wetLineGrossG() {
    return dryGrossG + saturatedMl - leastAirMl;
  }

  /** Depletion at the wet line; negative where it lies above container capacity. */
  public double wetLineDepletion() {
    return depletionAt(wetLineGrossG());
  }

  /**
   * Depletion from which on its air is safe: so much above the least that roots bear that warm ones
   * are not near it. Above 0 in a mix and vessel that drain to less.
   */
  public double safeAirDepletion() {
    return depletionAt(wetLineGrossG() - SAFE_ABOVE_LEAST * volumeMl);
  }

  /** Safe air, as a fraction of volume. */
  public double safeAir() {
    return leastAirMl / volumeMl + SAFE_ABOVE_LEAST;
  }

  /**
   * Depletion at a mass on the scale: 0 at container capacity, 1 where the cutting can take no
   * more, negative above capacity. From mass, not from the curve.
   *
   * @throws IllegalArgumentException for a mass that is not finite
   */
  public double depletionAt(double grossG) {
    return (capacityGrossG() - Argument.finite("grossG", grossG)) / availableMl;
  }
}
