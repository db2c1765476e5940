package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * A time in which the weight is not believed: from the first bad reading until ten quiet minutes
 * have passed.
 *
 * @param fault what began it, or what it turned out to be
 * @param before the cup as it was before; null if it was never known
 * @param peakG the reading farthest from what was expected, g
 * @param quietSince since when readings are plausible and agree; null: they do not yet
 * @param breaks how often quiet was broken again
 * @param ownMl ordered meanwhile, mL
 * @param value of the fault: a reading, a duration or a noise
 * @param threshold it was held against
 */
record Excursion(
    Fault fault,
    LoadFilter before,
    double peakG,
    Instant quietSince,
    int breaks,
    double ownMl,
    double value,
    double threshold) {
  /** A cup that was lifted must stand as long before it is watered again (project choice). */
  static final double QUIET_MIN = 10;

  /** Quiet broken so often is no person's hand any more. */
  private static final int NOISY_BREAKS = 3;

  Excursion quietFrom(Instant at) {
    return new Excursion(fault, before, peakG, at, breaks, ownMl, value, threshold);
  }

  Excursion broken(Instant at, double readG, double noiseG) {
    boolean noisy = breaks + 1 >= NOISY_BREAKS && fault == Fault.MOVED;
    return new Excursion(
        noisy ? Fault.NOISY : fault,
        before,
        farther(readG),
        at,
        breaks + 1,
        ownMl,
        noisy ? noiseG : value,
        noisy ? Noise.GREATEST_SD_G : threshold);
  }

  Excursion ordered(double moreMl) {
    return new Excursion(
        fault, before, peakG, quietSince, breaks, ownMl + moreMl, value, threshold);
  }

  boolean quietLongEnough(Instant now) {
    return quietSince != null && Elapsed.minutes(quietSince, now) >= QUIET_MIN - 1e-9;
  }

  double farther(double readG) {
    if (before == null) {
      return readG;
    }
    return Math.abs(readG - before.massG()) > Math.abs(peakG - before.massG()) ? readG : peakG;
  }
}
