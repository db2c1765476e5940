package dev.cupwarden.core.estimate;

import dev.cupwarden.core.climate.DryingPower;
import java.time.Instant;
import java.util.OptionalDouble;

/**
 * When a cup will have dried to a weight, with 80 % bounds.
 *
 * <p>For the next hours the present rate counts, later the cup's mean over the last days; one fades
 * into the other. Both are in the weather given. Loss is not slowed for a drier mix: a line is
 * rather told too early.
 *
 * <p>With present rate a, mean rate b and fading time τ the loss after t hours is L(t) = b·t + (a −
 * b)·τ·(1 − e^(−t/τ)).
 *
 * @param hours until then, 0 if it has passed
 * @param lowHours nine times in ten it is later
 * @param highHours nine times in ten it is sooner; infinite if it may never be
 */
public record Forecast(double hours, double lowHours, double highHours) {
  /** The weather of a room holds for a few hours (project choice). */
  private static final double FADING_H = 4;

  /** z of the normal distribution that leaves a tenth above it. */
  private static final double Z_TENTH = 1.2816;

  /**
   * A mean of the last days, used for the next in known weather, errs by this part (own trials).
   */
  private static final double MEAN_ERR_PART = 0.12;

  /** Likewise in weather that nobody told (project choice). */
  private static final double BLIND_ERR_PART = 0.25;

  private static final double LONGEST_H = 24 * 365;

  /** A tenth of a second. */
  private static final double WITHIN_H = 0.1 / 3600;

  /** Beyond a year, or never. */
  public static final Forecast NEVER =
      new Forecast(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

  /** The time to fall to {@code targetG}, from an estimate made at the same moment. */
  public static Forecast to(
      double targetG, CupEstimate estimate, EstimateState state, OptionalDouble vpdKpa) {
    Rates rates = Rates.of(estimate, state, vpdKpa);
    double roomG = estimate.massG() - targetG;
    double sdG = estimate.massSdG();
    return new Forecast(
        hours(roomG, rates.nowGPerH, rates.meanGPerH),
        hours(
            roomG - Z_TENTH * sdG,
            rates.nowGPerH + Z_TENTH * rates.nowSdGPerH,
            rates.meanGPerH + Z_TENTH * rates.meanSdGPerH),
        hours(
            roomG + Z_TENTH * sdG,
            rates.nowGPerH - Z_TENTH * rates.nowSdGPerH,
            rates.meanGPerH - Z_TENTH * rates.meanSdGPerH));
  }

  /** The same without its bounds: hours until then, 0 if it has passed, infinite if never. */
  public static double hoursTo(
      double targetG, CupEstimate estimate, EstimateState state, OptionalDouble vpdKpa) {
    Rates rates = Rates.of(estimate, state, vpdKpa);
    return hours(estimate.massG() - targetG, rates.nowGPerH, rates.meanGPerH);
  }

  /** When that is, or null if it is beyond a year. */
  public Instant from(Instant now) {
    return hours > LONGEST_H ? null : now.plusSeconds(Math.round(hours * 3600));
  }

  /** Mass expected after that many hours, g, never below {@code dryG}. */
  public static double massAfter(
      double hours, double dryG, CupEstimate estimate, EstimateState state, OptionalDouble vpdKpa) {
    Rates rates = Rates.of(estimate, state, vpdKpa);
    return Math.max(dryG, estimate.massG() - lossG(hours, rates.nowGPerH, rates.meanGPerH));
  }

  private static double lossG(double hours, double nowGPerH, double meanGPerH) {
    return meanGPerH * hours
        + (nowGPerH - meanGPerH) * FADING_H * (1 - Math.exp(-hours / FADING_H));
  }

  /** L is monotone for rates of at least 0; bisection needs no more than that. */
  private static double hours(double roomG, double nowGPerH, double meanGPerH) {
    if (roomG <= 0) {
      return 0;
    }
    double now = Math.max(0, nowGPerH);
    double mean = Math.max(0, meanGPerH);
    if (lossG(LONGEST_H, now, mean) < roomG) {
      return Double.POSITIVE_INFINITY;
    }
    // L runs between two straight lines, so the answer lies between their two.
    double low = roomG / Math.max(now, mean);
    double high = Math.min(LONGEST_H, roomG / Math.min(now, mean));
    for (int halving = 0; halving < 48 && high - low > WITHIN_H; halving++) {
      double middle = (low + high) / 2;
      if (lossG(middle, now, mean) < roomG) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }

  private record Rates(double nowGPerH, double nowSdGPerH, double meanGPerH, double meanSdGPerH) {

    static Rates of(CupEstimate estimate, EstimateState state, OptionalDouble vpdKpa) {
      DryingUse use = state.use();
      double now = estimate.rateGPerH();
      double drive = state.weather().driveKpa();
      if (vpdKpa.isPresent() && drive > 0) {
        now *= DryingPower.kpa(vpdKpa.getAsDouble()) / drive;
      }
      double nowSd = estimate.rateSdGPerH();
      if (!use.known()) {
        return new Rates(now, nowSd, now, nowSd);
      }
      if (vpdKpa.isPresent() && use.knownPerKpa()) {
        double mean = use.gPerHAt(vpdKpa.getAsDouble());
        return new Rates(now, nowSd, mean, MEAN_ERR_PART * mean);
      }
      double mean = use.meanGPerH();
      return new Rates(now, nowSd, mean, BLIND_ERR_PART * mean);
    }
  }
}
