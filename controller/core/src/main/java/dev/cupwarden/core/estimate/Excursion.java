package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
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
 * @param strangerG what stands on the scale in the cup's stead and cannot be the cup, g; 0: no such
 *     thing was seen twice
 */
record Excursion(
    Fault fault,
    LoadFilter before,
    double peakG,
    Instant quietSince,
    int breaks,
    double ownMl,
    double value,
    double threshold,
    double strangerG) {
  /** A cup that was lifted must stand as long before it is watered again (project choice). */
  static final double QUIET_MIN = 10;

  /** Two implausible readings of one load agree within this part of it. */
  private static final double AGREE_PART = 0.01;

  /** Less is noise (our choice). */
  private static final double STRANGER_DRIED_G = 1;

  /** Quiet broken so often is no person's hand any more. */
  private static final int NOISY_BREAKS = 3;

  /** The same of a cup that weighed that before. */
  Excursion ofCup(LoadFilter other) {
    return new Excursion(
        fault, other, peakG, quietSince, breaks, ownMl, value, threshold, strangerG);
  }

  Excursion quietFrom(Instant at) {
    return new Excursion(fault, before, peakG, at, breaks, ownMl, value, threshold, strangerG);
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
        noisy ? Noise.TOO_GREAT_SD_G : threshold,
        strangerG);
  }

  Excursion ordered(double moreMl) {
    return new Excursion(
        fault, before, peakG, quietSince, breaks, ownMl + moreMl, value, threshold, strangerG);
  }

  /** A load that the scale has borne twice running; no cup of this kind weighs so much. */
  Excursion withStranger(double massG) {
    return new Excursion(fault, before, peakG, quietSince, breaks, ownMl, value, threshold, massG);
  }

  /** Whether a load that cannot be the cup was told before. */
  boolean strangerTold() {
    return strangerG != 0;
  }

  /** Whether that load is the one that was told before, drier by more than noise. */
  boolean driedStranger(double massG) {
    double lostG = strangerG - massG;
    return strangerTold() && lostG >= STRANGER_DRIED_G && lostG <= AGREE_PART * strangerG;
  }

  /** Whether that reading is a load borne since the last one, and not yet told. */
  boolean newStranger(double lastG, double massG) {
    return !strangerTold() && before != null && Math.abs(massG - lastG) <= AGREE_PART * massG;
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
