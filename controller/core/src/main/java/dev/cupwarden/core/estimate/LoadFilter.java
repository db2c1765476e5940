package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * A Kalman filter over a cup's gross mass and its rate of loss, with the scale's temperature
 * coefficient carried along as a slowly learned constant.
 *
 * <p>State x = (mass m, rate r, coefficient k); a reading is y = m + k·(T − {@value
 * #REFERENCE_TEMP_C} °C) + noise; between readings m falls by r·dt and r wanders (integrated random
 * walk). Without a temperature the third part stays as it is and the filter is the two-state one.
 * Predict and update are the textbook equations (R. E. Kalman 1960, J. Basic Eng. 82:35).
 *
 * @param at the moment it holds for
 * @param massG gross mass at the reference temperature, g
 * @param rateGPerH loss, g/h; may be negative when a scale drifts
 * @param gPerC temperature coefficient of the scale, g/°C
 * @param varM variance of the mass; the others are the rest of the covariance's upper triangle
 */
record LoadFilter(
    Instant at,
    double massG,
    double rateGPerH,
    double gPerC,
    double varM,
    double covMR,
    double covMK,
    double varR,
    double covRK,
    double varK) {
  /** The temperature at which a scale is taken to be right, °C. */
  static final double REFERENCE_TEMP_C = 20;

  /** Cells of this size drift by 0.2 to 1 g over 10 °C (from memory): 0.05 g/°C is the middle. */
  private static final double GUESS_SD_G_PER_C = 0.05;

  private static final double GREATEST_G_PER_C = 0.15;

  /** What a cup at rest does besides drying: dust, droplets, the scale's zero. */
  private static final double MASS_WANDER_G2_PER_H = 1e-4;

  /** A rate changes by about this part of itself within an hour (light, air, stomata). */
  private static final double RATE_WANDER_PART = 0.12;

  /** By such a part of itself the logarithm of a change of light and air errs (own trials). */
  private static final double CHANGE_ERR_PART = 0.4;

  private static final double LEAST_RATE_WANDER_G_PER_H = 0.02;

  /**
   * A rate does not wander off without end: what it was half a day ago says little of its change.
   */
  private static final double RATE_MEMORY_H = 6;

  /** A cup of which only one weight is known. */
  static LoadFilter begin(Instant at, double massG, double noiseVar, double guessGPerH) {
    return new LoadFilter(
        at,
        massG,
        guessGPerH,
        0,
        noiseVar,
        0,
        0,
        guessGPerH * guessGPerH,
        0,
        GUESS_SD_G_PER_C * GUESS_SD_G_PER_C);
  }

  /** Carried forward without a reading. */
  LoadFilter predict(Instant now) {
    double dt = Elapsed.hours(at, now);
    if (dt == 0) {
      return this;
    }
    double wander = Math.max(LEAST_RATE_WANDER_G_PER_H, RATE_WANDER_PART * Math.abs(rateGPerH));
    double q = wander * wander;
    double memory = Math.min(dt, RATE_MEMORY_H);
    return new LoadFilter(
        now,
        massG - rateGPerH * dt,
        rateGPerH,
        gPerC,
        varM
            - 2 * dt * covMR
            + dt * dt * varR
            + q * memory * memory * (dt - 2 * memory / 3)
            + MASS_WANDER_G2_PER_H * dt,
        covMR - dt * varR - q * memory * memory / 2,
        covMK - dt * covRK,
        varR + q * memory,
        covRK,
        varK);
  }

  /** What the scale should show, g. */
  double expectedG(double warmC) {
    return massG + gPerC * warmC;
  }

  /** Variance of a reading around {@link #expectedG}, g². */
  double readingVar(double warmC, double noiseVar) {
    return varM + 2 * warmC * covMK + warmC * warmC * varK + noiseVar;
  }

  /** With a reading that differs by {@code surpriseG} from what was expected. */
  LoadFilter update(double surpriseG, double warmC, double noiseVar) {
    double s = readingVar(warmC, noiseVar);
    double hM = varM + warmC * covMK;
    double hR = covMR + warmC * covRK;
    double hK = covMK + warmC * varK;
    double k = gPerC + hK / s * surpriseG;
    return new LoadFilter(
        at,
        massG + hM / s * surpriseG,
        rateGPerH + hR / s * surpriseG,
        Math.max(-GREATEST_G_PER_C, Math.min(GREATEST_G_PER_C, k)),
        varM - hM * hM / s,
        covMR - hM * hR / s,
        covMK - hM * hK / s,
        varR - hR * hR / s,
        covRK - hR * hK / s,
        varK - hK * hK / s);
  }

  /** At another mass, known as well as one reading tells it; what was learned otherwise stays. */
  LoadFilter jumpTo(double newMassG, double noiseVar) {
    return new LoadFilter(at, newMassG, rateGPerH, gPerC, noiseVar, 0, 0, varR, covRK, varK);
  }

  /**
   * With the rate of other light and air: all that is known of the rate scales alike, and the
   * greater the change, the less sure it is that it goes by that factor.
   */
  LoadFilter changeRate(double factor) {
    double unsureGPerH = CHANGE_ERR_PART * Math.log(factor) * rateGPerH * factor;
    return new LoadFilter(
        at,
        massG,
        rateGPerH * factor,
        gPerC,
        varM,
        covMR * factor,
        covMK,
        varR * factor * factor + unsureGPerH * unsureGPerH,
        covRK * factor,
        varK);
  }

  /** As if the rate had been in doubt by {@code sdGPerH} over the last {@code hours}. */
  LoadFilter doubtRate(double sdGPerH, double hours) {
    double var = sdGPerH * sdGPerH;
    return new LoadFilter(
        at,
        massG,
        rateGPerH,
        gPerC,
        varM + hours * hours * var,
        covMR - hours * var,
        covMK,
        varR + var,
        covRK,
        varK);
  }

  /** What the next reading shows of load and rate says nothing of the scale's warmth. */
  LoadFilter apartFromWarmth() {
    return new LoadFilter(at, massG, rateGPerH, gPerC, varM, covMR, 0, varR, 0, varK);
  }

  /** With the rate held as it is, whatever the mass did. */
  LoadFilter withRate(double heldGPerH, double heldVar) {
    return new LoadFilter(at, massG, heldGPerH, gPerC, varM, 0, covMK, heldVar, 0, varK);
  }
}
