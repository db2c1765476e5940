package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;

/**
 * What a cup loses in a day for the drying power of its air, as its own days have shown it. All
 * figures are our choice.
 *
 * @param at of the day taken in last; null: none
 * @param days taken in
 * @param perKpa mean loss over drying power, g/h and kPa
 * @param quietPerKpa likewise in the quietest four hours of a day
 * @param quietVar variance of that as a part of itself
 * @param quietMost the most by which it went beyond that and came back, as a part of it
 * @param peakPerKpa the most of late in any four hours
 * @param light mean, µmol/m²/s; NaN: unknown
 */
public record UsualUse(
    Instant at,
    int days,
    double perKpa,
    double quietPerKpa,
    double quietVar,
    double quietMost,
    double peakPerKpa,
    double light) {
  /** Of what a cup will vary by nothing is known: by a sixth or so, say. */
  public static final UsualUse UNKNOWN =
      new UsualUse(null, 0, 0.0, 0.0, 0.15 * 0.15, 0.0, 0.0, Double.NaN);

  private static final Duration DAY = Duration.ofHours(24);
  private static final int LEAST_DAYS = 2;
  private static final double STEP = 0.2;

  /** A month ago is a fifth as good as yesterday. */
  private static final double FADES = 0.95;

  private static final double MOST_GROWTH = 1.5;

  /** Less is no more than a scale's own wandering, g/h. */
  private static final double LEAST_EXCESS_G_PER_H = 0.10;

  private static final double LEAST_PART = 0.15;
  private static final double BEYOND_SDS = 2.5;

  /** Whether it says what to expect. */
  public boolean known() {
    return days >= LEAST_DAYS;
  }

  /** Whether a day has gone by since the last that was taken in. */
  boolean due(Instant now) {
    return at == null || !now.isBefore(at.plus(DAY));
  }

  /**
   * After one more day.
   *
   * @param excessPart of its quietest hours over what was usual, as a part of that; 0: unknown
   */
  UsualUse day(Instant now, LossLog.Day seen, double excessPart) {
    double step = Math.max(STEP, 1.0 / (days + 1));
    boolean comparable = known() && Double.isFinite(excessPart);
    double var = quietVar + (comparable ? STEP * (excessPart * excessPart - quietVar) : 0.0);
    return new UsualUse(
        now,
        days + 1,
        perKpa + step * (seen.perKpa() - perKpa),
        quietPerKpa + step * (seen.quietPerKpa() - quietPerKpa),
        var,
        FADES * quietMost,
        peakAfter(seen.peakPerKpa()),
        Double.isNaN(light) ? seen.light() : light + step * (seen.light() - light));
  }

  /** One day's leap may be the scale's: it is not taken at its word at once. */
  private double peakAfter(double seen) {
    double most = known() ? Math.min(MOST_GROWTH * peakPerKpa, seen) : seen;
    return Math.max(FADES * peakPerKpa, most);
  }

  /** It lost more for some days, by that part at most, and came back by itself: so it varies. */
  UsualUse varied(double part) {
    return new UsualUse(
        at, days, perKpa, quietPerKpa, quietVar, Math.max(quietMost, part), peakPerKpa, light);
  }

  /** More than this beyond what is foretold is not how the cup varies, g/h. */
  double surelyMoreGPerH(double foretoldGPerH) {
    double part = Math.max(LEAST_PART, Math.max(quietMost, BEYOND_SDS * Math.sqrt(quietVar)));
    return Math.max(LEAST_EXCESS_G_PER_H, part * foretoldGPerH);
  }
}
