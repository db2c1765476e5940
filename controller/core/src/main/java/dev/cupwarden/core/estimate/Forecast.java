package dev.cupwarden.core.estimate;

import dev.cupwarden.core.climate.DryingPower;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.OptionalDouble;

/**
 * How a cup dries from one moment on: the only look ahead. Due and dry times, the order form, the
 * receipt of a hold and the watering that comes before a closed window all ask it.
 *
 * <p>For the next hours the present rate counts, later the cup's mean over the last days; one fades
 * into the other. Both are in the weather given. Loss is not slowed for a drier mix: a line is
 * rather told too early.
 *
 * <p>With present rate a, mean rate b and fading time τ the loss after t hours is L(t) = b·t + (a −
 * b)·τ·(1 − e^(−t/τ)).
 *
 * @param massG gross grams at that moment
 * @param massSdG its standard deviation
 * @param rates loss now and later
 */
public record Forecast(double massG, double massSdG, Rates rates) {
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

  /** Likewise of a cup of which only its stage and size are known (project choice). */
  public static final double FORETOLD_ERR_PART = 0.5;

  private static final double LONGEST_H = 24 * 365;

  /** A tenth of a second. */
  private static final double WITHIN_H = 0.1 / 3600;

  /** Which of all the ways it may dry is meant. */
  public enum Bound {
    /** One in ten dries faster: what to go by where dry roots are the risk. */
    EARLY(Z_TENTH),
    LIKELY(0),
    /** One in ten dries more slowly. */
    LATE(-Z_TENTH);

    private final double sds;

    Bound(double sds) {
      this.sds = sds;
    }
  }

  /**
   * Loss, g/h.
   *
   * @param nowGPerH at the moment of the forecast
   * @param meanGPerH of whole days, towards which it goes
   */
  public record Rates(double nowGPerH, double nowSdGPerH, double meanGPerH, double meanSdGPerH) {
    private double nowGPerH(Bound bound) {
      return Math.max(0, nowGPerH + bound.sds * nowSdGPerH);
    }

    private double meanGPerH(Bound bound) {
      return Math.max(0, meanGPerH + bound.sds * meanSdGPerH);
    }
  }

  /**
   * Of a cup whose use was learned.
   *
   * @param massG gross grams to go on from, with what is on its way
   * @param vpdKpa of the air to come; empty: unknown
   */
  public static Forecast of(
      double massG, CupEstimate estimate, EstimateState state, OptionalDouble vpdKpa) {
    return new Forecast(massG, estimate.massSdG(), rates(estimate, state, vpdKpa));
  }

  /** Of a cup of which no use was learned. */
  public static Forecast foretold(double massG, double massSdG, double rateGPerH) {
    double sdGPerH = FORETOLD_ERR_PART * rateGPerH;
    return new Forecast(massG, massSdG, new Rates(rateGPerH, sdGPerH, rateGPerH, sdGPerH));
  }

  /** Hours until it weighs {@code targetG}, 0 if that has passed, infinite if beyond a year. */
  public double hoursTo(double targetG, Bound bound) {
    return hours(roomG(targetG, bound), rates.nowGPerH(bound), rates.meanGPerH(bound));
  }

  /** The same as a moment, to the minute; null if beyond a year. */
  public Instant timeOf(double targetG, Bound bound, Instant now) {
    double hours = hoursTo(targetG, bound);
    return Double.isFinite(hours) ? now.plusSeconds(60L * Math.round(hours * 60)) : null;
  }

  /** Whether it weighs less than {@code targetG} before then. */
  public boolean before(Instant until, double targetG, Bound bound, Instant now) {
    double hours = Elapsed.hours(now, until);
    return lossG(hours, rates.nowGPerH(bound), rates.meanGPerH(bound)) > roomG(targetG, bound);
  }

  /** Mass likely after that many hours, g, never below {@code dryG}. */
  public double massAfter(double hours, double dryG) {
    return Math.max(dryG, massG - lossG(hours, rates.nowGPerH, rates.meanGPerH));
  }

  private double roomG(double targetG, Bound bound) {
    return massG - bound.sds * massSdG - targetG;
  }

  private static double lossG(double hours, double nowGPerH, double meanGPerH) {
    return meanGPerH * hours
        + (nowGPerH - meanGPerH) * FADING_H * (1 - Math.exp(-hours / FADING_H));
  }

  /** L is monotone for rates of at least 0; bisection needs no more than that. */
  private static double hours(double roomG, double now, double mean) {
    if (roomG <= 0) {
      return 0;
    }
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

  private static Rates rates(CupEstimate estimate, EstimateState state, OptionalDouble vpdKpa) {
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
