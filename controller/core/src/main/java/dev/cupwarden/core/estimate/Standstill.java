package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * How long a scale has shown the same weight to the last bit.
 *
 * <p>A live scale never does for long: its noise is above its last digit. A reading that was
 * rounded before it came here can stand still honestly, if the cup loses less than the rounding
 * meanwhile; so for a known rate the loss to be expected must pass two steps of the rounding before
 * the scale is called stuck, but half a day of standing still is too long in any case.
 *
 * @param massG the last reading
 * @param since when it was first shown
 * @param looks how often it was shown
 * @param neighboursMoved whether other scales moved meanwhile
 * @param stepG the finest decimal step that any reading needed: 1, 0.1, 0.01, 0.001, or 0 for finer
 * @param rateGPerH loss expected when it began, g/h; below 0: none was known
 */
record Standstill(
    double massG,
    Instant since,
    int looks,
    boolean neighboursMoved,
    double stepG,
    double rateGPerH) {
  static final double STUCK_MIN = 45;
  private static final int LEAST_LOOKS = 4;
  private static final double LEAST_STEPS = 2;
  private static final double ALWAYS_STUCK_MIN = 12 * 60;
  private static final double UNKNOWN_RATE = -1;

  static Standstill begin(Instant at, double massG) {
    return new Standstill(massG, at, 1, false, step(massG, 1), UNKNOWN_RATE);
  }

  /** After one more reading; {@code rateGPerH} below 0: not known. */
  Standstill next(CupReading reading, double rateGPerH) {
    double read = reading.massG();
    if (read == massG) {
      return new Standstill(
          massG,
          since,
          looks + 1,
          neighboursMoved || reading.neighboursMoved(),
          stepG,
          this.rateGPerH);
    }
    return new Standstill(read, reading.at(), 1, false, step(read, stepG), rateGPerH);
  }

  /** Another cup's weight explains nothing here: a moved cup's scale shows a new value anyway. */
  boolean stuck(Instant now) {
    double minutes = minutes(now);
    if (!neighboursMoved || looks < LEAST_LOOKS || minutes < STUCK_MIN) {
      return false;
    }
    return rateGPerH < 0
        || rateGPerH * minutes / 60 >= LEAST_STEPS * stepG
        || minutes >= ALWAYS_STUCK_MIN;
  }

  /** Whether no load, however slowly it dries, stands still for so long. */
  boolean always(Instant now) {
    return minutes(now) >= ALWAYS_STUCK_MIN;
  }

  double minutes(Instant now) {
    return Elapsed.minutes(since, now);
  }

  /** Standard deviation that the rounding alone causes, g: a uniform error of one step. */
  double roundingSdG() {
    return stepG / Math.sqrt(12);
  }

  private static double step(double massG, double coarsest) {
    double stepG = coarsest;
    while (stepG > 0 && !isMultiple(massG, stepG)) {
      stepG = stepG < 0.005 ? 0 : stepG / 10;
    }
    return stepG;
  }

  private static boolean isMultiple(double massG, double stepG) {
    double steps = massG / stepG;
    return Math.abs(steps - Math.rint(steps)) < 1e-6 * Math.max(1, Math.abs(steps) * 1e-6);
  }
}
