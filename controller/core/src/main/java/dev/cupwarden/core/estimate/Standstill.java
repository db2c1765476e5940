package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import org.hipparchus.special.Erf;

/**
 * How long a scale has shown the same weight to the last bit, and how likely a live one does.
 *
 * <p>A display of step q shows the same number while load and noise lie within q/2 of it (uniform
 * quantisation; B. Widrow and I. Kollár, Quantization Noise, 2008, from memory). With a noise of
 * standard deviation s a reading of a load that lies d off the middle of the step does so with
 *
 * <p>p(d) = Φ((q/2 − d)/s) − Φ((−q/2 − d)/s).
 *
 * <p>A load that meanwhile lost D is, whatever its place in the step, at half of the n readings at
 * least D/4 off the middle. So n equal readings in a row come from a live scale with odds of at
 * most p(0)^(n/2) · p(D/4)^(n/2). A scale is stuck once that is less than {@value #LEAST_ODDS}.
 *
 * @param massG the last reading
 * @param since when it was first shown
 * @param looks how often it was shown
 * @param neighboursMoved whether other scales moved meanwhile
 * @param stepG the finest decimal step that any reading needed: 1, 0.1, 0.01, 0.001, or 0 for finer
 * @param rateGPerH loss expected now, g/h, by what was known when it began and by light and air
 *     since; below 0: none was known
 * @param lossG loss expected since it began, g; 0 where none was known
 * @param noiseG noise of the scale when it began, g: standing still would lower it
 */
record Standstill(
    double massG,
    Instant since,
    int looks,
    boolean neighboursMoved,
    double stepG,
    double rateGPerH,
    double lossG,
    double noiseG) {
  static final double STUCK_MIN = 45;
  private static final int LEAST_LOOKS = 4;

  /** Our choice. */
  private static final double LEAST_ODDS = 1e-6;

  /** A learned rate is known within a third (see {@link CupEstimate#rateKnown}): at its least. */
  private static final double SURE_PART = 2.0 / 3.0;

  /** More noise counts as so much of a step: a fan may have stopped meanwhile (our choice). */
  private static final double MOST_NOISE_STEPS = 1.0 / 3.0;

  /** What is finer than all steps known. */
  private static final double FINEST_STEP_G = 0.001;

  /** No load stands still for two days, not even a sealed cup through a long night: our choice. */
  private static final double ALWAYS_STUCK_MIN = 48 * 60;

  /** A broken wire is told from a load that dries slowly by half a day: our choice. */
  private static final double NO_LOAD_MIN = 12 * 60;

  private static final double UNKNOWN_RATE = -1;

  static Standstill begin(Instant at, double massG, double noiseG) {
    return new Standstill(massG, at, 1, false, step(massG, 1), UNKNOWN_RATE, 0, noiseG);
  }

  /**
   * After one more reading.
   *
   * @param rateGPerH loss to be expected by now, below 0: not known
   * @param change part by which light and air have changed any rate since the last look
   * @param hours since the last reading
   */
  Standstill next(
      CupReading reading, double rateGPerH, double change, double hours, double noiseG) {
    double read = reading.massG();
    if (read == massG) {
      double now = this.rateGPerH < 0 ? UNKNOWN_RATE : this.rateGPerH * change;
      return new Standstill(
          massG,
          since,
          looks + 1,
          neighboursMoved || reading.neighboursMoved(),
          stepG,
          now,
          lossG + Math.max(0, now) * hours,
          this.noiseG);
    }
    return new Standstill(read, reading.at(), 1, false, step(read, stepG), rateGPerH, 0, noiseG);
  }

  /** The same of a cup that may stand still for as long as it likes. */
  Standstill meant(Instant at) {
    return new Standstill(massG, at, 1, false, stepG, UNKNOWN_RATE, 0, noiseG);
  }

  /** The same where a step that was shown was never the cup's. */
  Standstill without(double lessG) {
    return new Standstill(
        massG - lessG, since, looks, neighboursMoved, stepG, rateGPerH, lossG, noiseG);
  }

  /** Another cup's weight explains nothing here: a moved cup's scale shows a new value anyway. */
  boolean stuck(Instant now) {
    double minutes = minutes(now);
    if (!neighboursMoved || looks < LEAST_LOOKS || minutes < STUCK_MIN) {
      return false;
    }
    return minutes >= ALWAYS_STUCK_MIN || odds() < LEAST_ODDS;
  }

  /** Upper bound of the odds that a live scale shows so many equal readings. */
  private double odds() {
    double stepG = Math.max(FINEST_STEP_G, this.stepG);
    double most = Math.max(Noise.LEAST_SD_G, MOST_NOISE_STEPS * stepG);
    double sdG = Math.max(Noise.LEAST_SD_G, Math.min(most, noiseG));
    double offG = SURE_PART * lossG / 4;
    return Math.pow(within(0, stepG, sdG) * within(offG, stepG, sdG), looks / 2.0);
  }

  /** Part of readings of a load that far off the middle of a step that show this step. */
  private static double within(double offG, double stepG, double sdG) {
    double scale = 1 / (sdG * Math.sqrt(2));
    return Erf.erf((-stepG / 2 - offG) * scale, (stepG / 2 - offG) * scale) / 2;
  }

  /** Whether no load, however slowly it dries, stands still for so long. */
  boolean always(Instant now) {
    return minutes(now) >= NO_LOAD_MIN;
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
