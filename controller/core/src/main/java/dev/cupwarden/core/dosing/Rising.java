package dev.cupwarden.core.dosing;

import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;

/**
 * A cup that grows heavier over hours with nothing ordered: a leaking valve. A person's can raises
 * it in one step instead.
 *
 * <p>Readings are taken together in half hours. The mean of one is held against the lowest mean of
 * the last twelve hours, since a drip may be slower than the cup dries by day and shows only at
 * night. The scale's own noise is taken from the same readings by their second differences, which a
 * steady climb leaves at zero, so that a noisy scale is not taken for a rising cup.
 *
 * <p>Its thirteen parts lie side by side, as a journal keeps them.
 *
 * @param from when the half hour that runs began; null: no reading yet
 * @param readings in it
 * @param sumG of its readings, less {@code baseG}
 * @param bends sum of the squares of second differences, g²
 * @param baseG its first reading
 * @param lastG last reading; NaN if there was none
 * @param beforeG the one before; NaN if there was none
 * @param lastAt when the last was read
 * @param noiseG standard deviation of one reading over the last hours; 0: no half hour is closed
 *     yet
 * @param lowG lowest mean; NaN before the first
 * @param lowAt when
 * @param climbedG from there to the last mean, 0 or more
 * @param thresholdG a climb beyond this is no noise
 */
public record Rising(
    Instant from,
    int readings,
    double sumG,
    double bends,
    double baseG,
    double lastG,
    double beforeG,
    Instant lastAt,
    double noiseG,
    double lowG,
    Instant lowAt,
    double climbedG,
    double thresholdG) {
  /**
   * Least climb that is called a leak; cells drift and cups sweat by less than this: our choice.
   */
  private static final double LEAST_G = 3.0;

  /** Standard errors of the difference of two means. */
  private static final double BEYOND = 8.0;

  /** Weight of the last half hour in what is known of the noise. */
  private static final double LEARNING = 0.3;

  private static final Duration TOGETHER = Duration.ofMinutes(30);
  private static final int LEAST_READINGS = 4;
  private static final Duration LOW_HOLDS = Duration.ofHours(12);

  public static final Rising NONE =
      new Rising(
          null,
          0,
          0.0,
          0.0,
          Double.NaN,
          Double.NaN,
          Double.NaN,
          null,
          0.0,
          Double.NaN,
          null,
          0.0,
          0.0);

  /** After a reading to which no dose of ours or a person's belongs. */
  public Rising read(Instant at, double massG) {
    if (from == null || Duration.between(lastAt, at).compareTo(TOGETHER) > 0) {
      return begin(at, massG, Double.NaN, noiseG, lowG, lowAt, climbedG, thresholdG);
    }
    double bend = Double.isNaN(beforeG) ? 0.0 : massG - 2.0 * lastG + beforeG;
    Rising more =
        new Rising(
            from,
            readings + 1,
            sumG + massG - baseG,
            bends + bend * bend,
            baseG,
            massG,
            lastG,
            at,
            noiseG,
            lowG,
            lowAt,
            climbedG,
            thresholdG);
    boolean full =
        more.readings >= LEAST_READINGS && Duration.between(from, at).compareTo(TOGETHER) >= 0;
    return full ? more.closed(at) : more;
  }

  /** After a reading to which a dose belongs, or that is not believed. */
  public Rising dosed() {
    return new Rising(
        null,
        0,
        0.0,
        0.0,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        null,
        noiseG,
        Double.NaN,
        null,
        0.0,
        0.0);
  }

  /** This reading ends one half hour and begins the next. */
  private Rising closed(Instant at) {
    double meanG = baseG + sumG / readings;
    // The second difference of readings of variance v has the variance 6 v.
    double heardG = Math.sqrt(bends / (6.0 * (readings - 2)));
    double loudestG = Math.max(noiseG, heardG);
    double varG2 = noiseG * noiseG + LEARNING * (heardG * heardG - noiseG * noiseG);
    boolean lowest =
        Double.isNaN(lowG) || meanG <= lowG || Duration.between(lowAt, at).compareTo(LOW_HOLDS) > 0;
    return begin(
        at,
        lastG,
        beforeG,
        noiseG == 0.0 ? heardG : Math.sqrt(varG2),
        lowest ? meanG : lowG,
        lowest ? at : lowAt,
        lowest ? 0.0 : meanG - lowG,
        Math.max(LEAST_G, BEYOND * loudestG * Math.sqrt(2.0 / readings)));
  }

  private static Rising begin(
      Instant at,
      double massG,
      double beforeG,
      double noiseG,
      double lowG,
      Instant lowAt,
      double climbedG,
      double thresholdG) {
    return new Rising(
        at, 1, 0.0, 0.0, massG, massG, beforeG, at, noiseG, lowG, lowAt, climbedG, thresholdG);
  }

  /**
   * Whether it can be nothing else.
   *
   * @param othersClimbedG what the bench's other cups gained meanwhile: dew or a drift of all
   *     scales
   */
  public boolean leaking(double othersClimbedG) {
    return climbedG - othersClimbedG > thresholdG && thresholdG > 0.0;
  }

  /** How fast it climbs, g/h, over half an hour at least. */
  public double climbingGPerH(Instant at) {
    return climbedG / Math.max(0.5, Elapsed.hours(lowAt, at));
  }

  /** 3 g or six standard deviations: a single rise that a person or a pass may have made. */
  public static double stepG(double sdG) {
    return Math.max(LEAST_G, 6.0 * sdG);
  }
}
