package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;

/**
 * Electrical conductivity (EC) of water and feed, in mS per cm at 25 °C; 1 mS/cm = 1 dS/m = 1
 * mmho/cm.
 *
 * <p>The EC of a feed adds to the water's and grows in proportion to its concentration (extension
 * texts on fertiliser calculators). Nitrogen from urea adds next to none: take the figure of the
 * bag, not of the nitrogen.
 */
public final class Conductivity {
  /** Change per °C of common meters, as a part. */
  public static final double USUAL_PER_C = 0.02;

  private static final double GREATEST = 200;

  private Conductivity() {}

  /**
   * EC of feed dissolved in water, mS per cm.
   *
   * @param waterMsPerCm EC of the water, 0 to 200 mS per cm
   * @param gPerL feed dissolved, 0 to 1000 g per L
   * @param msPerCmPerGPerL added by one gram per litre, 0 to 10 mS per cm
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double ofFeed(double waterMsPerCm, double gPerL, double msPerCmPerGPerL) {
    return Argument.within("waterMsPerCm", waterMsPerCm, 0, GREATEST)
        + Argument.within("gPerL", gPerL, 0, 1000)
            * Argument.within("msPerCmPerGPerL", msPerCmPerGPerL, 0, 10);
  }

  /**
   * Feed in a solution by its EC, g per L; the inverse of {@link #ofFeed}.
   *
   * @param ecMsPerCm EC of the solution, {@code waterMsPerCm} to 200 mS per cm
   * @param waterMsPerCm EC of the water alone, 0 to 200 mS per cm
   * @param msPerCmPerGPerL added by one gram per litre, above 0, at most 10 mS per cm
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double feedGPerL(double ecMsPerCm, double waterMsPerCm, double msPerCmPerGPerL) {
    Argument.within("waterMsPerCm", waterMsPerCm, 0, GREATEST);
    Argument.within("ecMsPerCm", ecMsPerCm, waterMsPerCm, GREATEST);
    return (ecMsPerCm - waterMsPerCm) / Argument.above("msPerCmPerGPerL", msPerCmPerGPerL, 0, 10);
  }

  /**
   * A reading brought to 25 °C, mS per cm: {@code EC / (1 + c (T - 25))}.
   *
   * @param ecMsPerCm as read without compensation, 0 to 200 mS per cm
   * @param tempC of the solution, 0 to 50 °C
   * @param perC change per °C as a part, 0.01 to 0.03; {@link #USUAL_PER_C} for most meters
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double at25C(double ecMsPerCm, double tempC, double perC) {
    Argument.within("ecMsPerCm", ecMsPerCm, 0, GREATEST);
    Argument.within("tempC", tempC, 0, 50);
    Argument.within("perC", perC, 0.01, 0.03);
    return ecMsPerCm / (1 + perC * (tempC - 25));
  }

  /**
   * The figure of a "ppm" meter, mg per L.
   *
   * @param ecMsPerCm 0 to 200 mS per cm
   * @param scale the meter's own: 500, 640 (FAO-29) or 700 mg per L for 1 mS per cm; 400 to 1000
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double dissolvedMgPerL(double ecMsPerCm, double scale) {
    return Argument.within("ecMsPerCm", ecMsPerCm, 0, GREATEST)
        * Argument.within("scale", scale, 400, 1000);
  }
}
