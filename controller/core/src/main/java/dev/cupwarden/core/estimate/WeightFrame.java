package dev.cupwarden.core.estimate;

import dev.cupwarden.core.substrate.CupWater;

/**
 * What a cup's gross weight can be.
 *
 * @param dryG with no water at all: vessel, dry mix and cutting, g, above 0
 * @param capacityG at container capacity, g, above {@code dryG}
 * @param saturatedG with every pore full, g, not below {@code capacityG}
 * @param availableMl water between capacity and where the cutting can take no more, mL, above 0 and
 *     no more than there is
 */
public record WeightFrame(double dryG, double capacityG, double saturatedG, double availableMl) {
  /** Of sums of a few terms that are equal but for rounding. */
  private static final double ROUNDING_G = 1e-6;

  public WeightFrame {
    if (!(dryG > 0 && dryG < capacityG && capacityG <= saturatedG && saturatedG < 1e6)) {
      throw new IllegalArgumentException(
          "a cup's weights must rise from above 0 g: dry %s, at capacity %s, saturated %s"
              .formatted(dryG, capacityG, saturatedG));
    }
    if (!(availableMl > 0 && availableMl < 1e6)) {
      throw new IllegalArgumentException("availableMl must be above 0 mL, not " + availableMl);
    }
    if (capacityG - availableMl < dryG - ROUNDING_G) {
      throw new IllegalArgumentException(
          "no line lies below the dry weight of %s g: at capacity %s g, available %s mL"
              .formatted(dryG, capacityG, availableMl));
    }
  }

  /** As predicted of a cup, before anything was learned of it. */
  public static WeightFrame of(CupWater water) {
    return new WeightFrame(
        water.dryGrossG(), water.capacityGrossG(), water.saturatedGrossG(), water.availableMl());
  }

  /** Water at capacity, mL. */
  public double capacityMl() {
    return capacityG - dryG;
  }

  /** Depletion at that gross weight: 0 at capacity, 1 where the cutting can take no more. */
  public double depletion(double massG) {
    return (capacityG - massG) / availableMl;
  }

  /** Gross grams at that depletion. */
  public double massG(double depletion) {
    return capacityG - depletion * availableMl;
  }
}
