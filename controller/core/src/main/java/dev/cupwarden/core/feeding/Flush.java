package dev.cupwarden.core.feeding;

/**
 * How much plain water washes a cup's salts out. Water that runs through mixes with what the mix
 * holds and takes its part along, so that what is above the water's own falls by {@code exp(-V /
 * capacity)} with V that ran through: a stirred tank, as FAO-29 rev. 1 has it for leaching
 * efficiency 1.
 */
public final class Flush {
  /**
   * What a flush is to reach, mS/cm: a cup fed at 100 mg/L N in water of 0.3 stands there. Our
   * choice.
   */
  public static final double REACHES_MS_PER_CM = 1.0;

  /** Water that is nearly as salty as that is flushed with to this multiple of its own. */
  private static final double OF_WATER = 1.5;

  private Flush() {}

  /** What a flush with such water is to reach, mS/cm. */
  public static double reachesMsPerCm(double waterMsPerCm) {
    return Math.max(REACHES_MS_PER_CM, OF_WATER * waterMsPerCm);
  }

  /**
   * Water to give, mL: to fill the cup, and to run through.
   *
   * @param msPerCm of its water at capacity; what lies below the goal needs none
   * @param roomMl up to its capacity
   */
  public static double ml(double msPerCm, double waterMsPerCm, double capacityMl, double roomMl) {
    double goalMsPerCm = reachesMsPerCm(waterMsPerCm);
    if (msPerCm <= goalMsPerCm) {
      return 0.0;
    }
    double through = capacityMl * Math.log((msPerCm - waterMsPerCm) / (goalMsPerCm - waterMsPerCm));
    return Math.max(0.0, roomMl) + through;
  }

  /** Days until the water's own salts alone bring a flushed cup back to the limit. */
  public static double lastsDays(double waterMsPerCm, double capacityMl, double lostMlPerD) {
    double roomMsMl =
        Math.max(0.0, SaltBalance.MOST_MS_PER_CM - reachesMsPerCm(waterMsPerCm)) * capacityMl;
    return roomMsMl / (waterMsPerCm * lostMlPerD);
  }
}
