package dev.cupwarden.core.estimate;

/**
 * A cup without a scale: a moisture probe's volume fraction, as the weight that the cup would have.
 * So it goes through the same chain as a weighed cup.
 */
public final class MoistureProbe {
  private MoistureProbe() {}

  /**
   * Gross grams of a cup that holds that much water; NaN if theta is no volume fraction.
   *
   * @param theta water, volume fraction, 0 to 1
   * @param mixVolumeMl volume of the mix, mL, above 0
   * @param dryG gross weight with no water at all, g
   */
  public static double massG(double theta, double mixVolumeMl, double dryG) {
    if (!(mixVolumeMl > 0)) {
      throw new IllegalArgumentException("mixVolumeMl must be above 0 mL, not " + mixVolumeMl);
    }
    // Water weighs 1 g/mL here: between 0 and 40 °C it is within 0.8 % of that.
    return theta >= 0 && theta <= 1 ? dryG + theta * mixVolumeMl : Double.NaN;
  }
}
