package dev.cupwarden.core.dosing;

/**
 * Water of which nobody knows where it is: what left the tanks, less what the weights saw arrive.
 *
 * <p>Out of a tank goes what was ordered from it, and what its gauge fell beyond that; a tank
 * without a gauge is taken at the orders' word. Found is a pass that its cup's weight bore out, all
 * of it (what ran through is reckoned in the tray), of one that came short only the rise, and of
 * one that no reading judged nothing. So it errs high: a pump that gives less than ordered, a blind
 * cup and a pass that was cut off all count as water gone astray. It is never below 0: water that
 * was not pumped makes up for none that was spilled.
 *
 * <p>What is not found fades while the sensor stays dry, to a part of e in a day: by then it would
 * have run to the sensor. Our choice, as are the figures.
 *
 * @param unexplainedMl 0 or more
 */
public record WaterBalance(double unexplainedMl) {
  public static final WaterBalance NONE = new WaterBalance(0.0);

  private static final double FADES_IN_H = 24.0;

  /** A level that rises by more, mL, was raised by a person's hand. */
  private static final double BY_HAND_ML = 20.0;

  /**
   * After a pass was judged.
   *
   * @param foundMl what the cup's weight bore out of it
   */
  public WaterBalance pass(double orderedMl, double foundMl) {
    return plus(orderedMl - Math.min(orderedMl, Math.max(0.0, foundMl)));
  }

  /**
   * After a gauge was read.
   *
   * @param fellMl by how much the level is below what was reckoned of it; negative where above
   * @param sound whether the sensor is dry and was: then a tank lifted off and put back is as if
   *     nothing had been; else a fill explains nothing
   */
  public WaterBalance gauge(double fellMl, boolean sound) {
    boolean byHand = fellMl < -BY_HAND_ML;
    return byHand && !sound ? this : plus(fellMl);
  }

  /** After that long with a dry sensor. */
  public WaterBalance dry(double hours) {
    return unexplainedMl == 0.0
        ? this
        : new WaterBalance(unexplainedMl * Math.exp(-hours / FADES_IN_H));
  }

  private WaterBalance plus(double ml) {
    return new WaterBalance(Math.max(0.0, unexplainedMl + ml));
  }
}
