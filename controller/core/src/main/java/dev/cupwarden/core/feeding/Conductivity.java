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
}
