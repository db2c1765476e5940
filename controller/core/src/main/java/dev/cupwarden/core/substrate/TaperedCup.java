package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;
import dev.cupwarden.core.setup.Vessel;

/**
 * The mix in a cup as a truncated cone, wide end up or down.
 *
 * @param baseRadiusCm inner radius at the drain holes, above 0, at most 200 cm
 * @param topRadiusCm inner radius at the surface of the mix, above 0, at most 200 cm
 * @param depthCm depth of the mix, above 0, at most 500 cm
 */
public record TaperedCup(double baseRadiusCm, double topRadiusCm, double depthCm) {
  /**
   * @throws IllegalArgumentException naming the argument out of its range
   */
  public TaperedCup {
    Argument.above("baseRadiusCm", baseRadiusCm, 0, 200);
    Argument.above("topRadiusCm", topRadiusCm, 0, 200);
    Argument.above("depthCm", depthCm, 0, 500);
  }

  /** The shape of a bench's vessel. */
  public static TaperedCup of(Vessel vessel) {
    return new TaperedCup(vessel.baseMm() / 20, vessel.topMm() / 20, vessel.depthMm() / 10);
  }

  /**
   * Inner radius at a height above the base, cm.
   *
   * @param heightCm 0 to the depth of the mix
   * @throws IllegalArgumentException for a height outside of the mix
   */
  public double radiusCm(double heightCm) {
    Argument.within("heightCm", heightCm, 0, depthCm);
    return baseRadiusCm + widening() * heightCm;
  }

  /** Volume of the mix, mL. */
  public double volumeMl() {
    return filledMl(depthCm);
  }

  /**
   * Volume below a height above the base, mL.
   *
   * @param heightCm 0 to the depth of the mix
   * @throws IllegalArgumentException for a height outside of the mix
   */
  public double filledMl(double heightCm) {
    double top = radiusCm(heightCm);
    return Math.PI * heightCm / 3 * (top * top + top * baseRadiusCm + baseRadiusCm * baseRadiusCm);
  }

  /** Gain of radius per height, negative where the base is the wider end. */
  double widening() {
    return (topRadiusCm - baseRadiusCm) / depthCm;
  }
}
