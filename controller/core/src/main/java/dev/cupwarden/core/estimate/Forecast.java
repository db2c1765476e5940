package dev.cupwarden.core.estimate;

import dev.cupwarden.core.climate.DryingPower;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How a cup dries from one moment on: the only look ahead. Due and dry times, the order form, the
 * receipt of a hold and the watering that comes before a closed window all ask it.
 *
 * <p>For the next hours the present rate counts, later what the cup uses at that hour of its days;
 * one fades into the other. In the weather given, if any. With the present rate a, the mean b of
 * whole days, the hour's part c(t) of that mean and the fading time τ, a cup that does not slow has
 * lost L(t) = ∫ b·c + (a − b·c(0))·e^(−t/τ) dt after t hours. A drying cup slows ({@link DryFall});
 * at the early bound it does not: that is what one goes by where dry roots are the risk.
 *
 * @param massG gross grams at that moment
 * @param massSdG its standard deviation
 * @param rates loss now and later
 * @param ahead how the hours to come differ
 * @param slows how it slows as it dries
 */
public record Forecast(double massG, double massSdG, Rates rates, HoursAhead ahead, DryFall slows) {
  /** The weather of a room holds for a few hours (project choice). */
  static final double FADING_H = 4;

  /** z of the normal distribution that leaves a tenth above it. */
  private static final double Z_TENTH = 1.2816;

  /**
   * A mean of the last days, used for the next in known weather, errs by this part (own trials).
   */
  private static final double MEAN_ERR_PART = 0.12;

  /** Likewise where the hours of its days are known, in weather that nobody told (own trials). */
  private static final double DAYS_ERR_PART = 0.12;

  /** Likewise where they are not (project choice). */
  private static final double BLIND_ERR_PART = 0.25;

  /** Likewise of a cup of which only its stage and size are known (project choice). */
  public static final double FORETOLD_ERR_PART = 0.5;

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
    /** Of a cup that now loses but that part of what a wet one would. */
    private Rates over(double part) {
      return part == 1
          ? this
          : new Rates(nowGPerH / part, nowSdGPerH / part, meanGPerH, meanSdGPerH);
    }

    private double nowGPerH(Bound bound) {
      return Math.max(0, nowGPerH + bound.sds * nowSdGPerH);
    }

    private double meanGPerH(Bound bound) {
      return Math.max(0, meanGPerH + bound.sds * meanSdGPerH);
    }
  }

  /** Of a cup that dries at all hours alike, and does not slow. */
  Forecast(double massG, double massSdG, Rates rates) {
    this(massG, massSdG, rates, HoursAhead.EVEN, DryFall.NEVER);
  }

  /**
   * Of a cup whose use was learned.
   *
   * @param massG gross grams to go on from, with what is on its way
   * @param frame its weights, with its learned capacity
   * @param vpdKpa mean of the air to come; empty: as it usually is
   * @param hour of the day now; NaN: unknown
   */
  public static Forecast of(
      double massG,
      CupEstimate estimate,
      EstimateState state,
      WeightFrame frame,
      OptionalDouble vpdKpa,
      double hour) {
    DryFall slows = DryFall.of(frame);
    Optional<DayProfile.Usual> usual = state.day().usual();
    Rates rates = rates(estimate, state, usual, vpdKpa).over(slows.part(estimate.massG()));
    HoursAhead ahead = HoursAhead.of(usual, state.day().air(), hour);
    return new Forecast(massG, estimate.massSdG(), rates, ahead, slows);
  }

  /** Of a cup of which no use was learned. */
  public static Forecast foretold(double massG, double massSdG, double rateGPerH) {
    double sdGPerH = FORETOLD_ERR_PART * rateGPerH;
    return new Forecast(massG, massSdG, new Rates(rateGPerH, sdGPerH, rateGPerH, sdGPerH));
  }

  /** Hours until it weighs {@code targetG}, 0 if that has passed, infinite if beyond a year. */
  public double hoursTo(double targetG, Bound bound) {
    double fromG = fromG(bound);
    return fromG <= targetG
        ? 0
        : ahead.hours(
            slows(bound).unslowedG(fromG, targetG), rates.nowGPerH(bound), rates.meanGPerH(bound));
  }

  /** The same as a moment, to the minute; null if beyond a year. */
  public Instant timeOf(double targetG, Bound bound, Instant now) {
    double hours = hoursTo(targetG, bound);
    return Double.isFinite(hours) ? now.plusSeconds(60L * Math.round(hours * 60)) : null;
  }

  /** Whether it weighs less than {@code targetG} before then. */
  public boolean before(Instant until, double targetG, Bound bound, Instant now) {
    double hours = Elapsed.hours(now, until);
    double lossG = ahead.lossG(hours, rates.nowGPerH(bound), rates.meanGPerH(bound));
    return slows(bound).massAfter(fromG(bound), lossG) < targetG;
  }

  /** Mass likely after that many hours, g, never below {@code dryG}. */
  public double massAfter(double hours, double dryG) {
    double lossG = ahead.lossG(hours, rates.nowGPerH, rates.meanGPerH);
    return Math.max(dryG, slows.massAfter(massG, lossG));
  }

  private double fromG(Bound bound) {
    return massG - bound.sds * massSdG;
  }

  private DryFall slows(Bound bound) {
    return bound == Bound.EARLY ? DryFall.NEVER : slows;
  }

  private static Rates rates(
      CupEstimate estimate,
      EstimateState state,
      Optional<DayProfile.Usual> usual,
      OptionalDouble vpdKpa) {
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
    if (vpdKpa.isEmpty() && usual.isPresent()) {
      double mean = usual.get().meanGPerH();
      return new Rates(now, nowSd, mean, DAYS_ERR_PART * mean);
    }
    if (vpdKpa.isPresent() && use.knownPerKpa()) {
      double mean = use.gPerHAt(vpdKpa.getAsDouble());
      return new Rates(now, nowSd, mean, MEAN_ERR_PART * mean);
    }
    double mean = use.meanGPerH();
    return new Rates(now, nowSd, mean, BLIND_ERR_PART * mean);
  }
}
