package dev.cupwarden.core.estimate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/**
 * How the hours to come differ in what a cup loses in them.
 *
 * <p>What the air of late does to use fades within three days or so (weather's memory; our choice).
 * Six days are walked hour by hour, what comes later by whole days and then again by the hour: by
 * then present rate and air have faded.
 *
 * @param fromHour of the day at which they begin, 0 to 24
 * @param parts of the mean of a day in each of its hours, from midnight on; their mean is 1
 * @param air by how many times the air of late makes use greater or less
 */
record HoursAhead(double fromHour, List<Double> parts, double air) {
  /** All alike. */
  static final HoursAhead EVEN = new HoursAhead(0, Collections.nCopies(DayProfile.HOURS, 1.0), 1);

  private static final double LONGEST_H = 24 * 365;

  /** A tenth of a second. */
  private static final double WITHIN_H = 0.1 / 3600;

  private static final double WALKED_H = 144;

  /**
   * A day's mean temperature goes with the next by some 0.75 (from memory): three days and more.
   */
  private static final double AIR_FADE_H = 48;

  /**
   * As far as the hours of the cup's days are known, and the hour.
   *
   * @param air by how many times the air of late makes use greater or less
   * @param hour of the day now; NaN: unknown
   */
  static HoursAhead of(Optional<DayProfile.Usual> usual, double air, double hour) {
    if (Double.isNaN(hour) || usual.isEmpty()) {
      return EVEN;
    }
    double mean = usual.get().meanGPerH();
    if (!(mean > 0)) {
      return EVEN;
    }
    List<Double> parts = new ArrayList<>(DayProfile.HOURS);
    for (double each : usual.get().gPerH()) {
      parts.add(each / mean);
    }
    return new HoursAhead(hour, parts, air);
  }

  /**
   * Grams lost after that many hours.
   *
   * @param nowGPerH at their start, 0 or more
   * @param meanGPerH of whole days, 0 or more
   */
  double lossG(double hours, double nowGPerH, double meanGPerH) {
    return new Walk(nowGPerH, meanGPerH).lostAt(hours);
  }

  /** Hours until so much is lost, infinite if beyond a year. */
  double hours(double lossG, double nowGPerH, double meanGPerH) {
    return new Walk(nowGPerH, meanGPerH).hoursTo(lossG);
  }

  /** One way through the hours; what has faded at an hour's end is what the next begins with. */
  private final class Walk {
    private final double meanGPerH;
    private final double surplusGPerH;
    private double atH;
    private double lostG;
    private int hour;
    private int ofDay;
    private double airLeft = 1;
    private double surplusLeft = 1;
    private double airLeftAtEnd = 1;
    private double surplusLeftAtEnd = 1;

    Walk(double nowGPerH, double meanGPerH) {
      this.meanGPerH = meanGPerH;
      startAt(0);
      this.surplusGPerH = nowGPerH - meanGPerH * parts.get(ofDay) * air;
    }

    double lostAt(double hours) {
      while (atH < hours) {
        skipDays((hours - atH) / 24);
        double endH = Math.min(hours, nextH());
        takeStep(endH, lossUntil(endH));
      }
      return lostG;
    }

    double hoursTo(double targetG) {
      while (atH <= LONGEST_H) {
        skipDays((targetG - lostG) / (24 * meanGPerH));
        double endH = nextH();
        double stepG = lossUntil(endH);
        if (lostG + stepG >= targetG) {
          double hours = within(targetG - lostG, endH);
          return hours <= LONGEST_H ? hours : Double.POSITIVE_INFINITY;
        }
        takeStep(endH, stepG);
      }
      return Double.POSITIVE_INFINITY;
    }

    /** To the end that {@link #lossUntil} was last asked of. */
    private void takeStep(double endH, double stepG) {
      lostG += stepG;
      atH = endH;
      hour++;
      ofDay = ofDay + 1 < DayProfile.HOURS ? ofDay + 1 : 0;
      airLeft = airLeftAtEnd;
      surplusLeft = surplusLeftAtEnd;
    }

    /** The whole ones of those, once the present rate has faded, and not for ever. */
    private void skipDays(double days) {
      if (atH >= WALKED_H && days >= 1) {
        double skipped = Math.min(Math.floor(days), LONGEST_H);
        lostG += 24 * skipped * meanGPerH;
        atH += 24 * skipped;
        startAt(atH);
        airLeft = left(atH, AIR_FADE_H);
        surplusLeft = left(atH, Forecast.FADING_H);
      }
    }

    private double nextH() {
      return hour + 1 - fromHour;
    }

    private void startAt(double afterH) {
      hour = (int) Math.floor(fromHour + afterH + 1e-9);
      ofDay = Math.floorMod(hour, DayProfile.HOURS);
    }

    private double lossUntil(double endH) {
      airLeftAtEnd = left(endH, AIR_FADE_H);
      surplusLeftAtEnd = left(endH, Forecast.FADING_H);
      double inAirH = endH - atH + (air - 1) * (AIR_FADE_H * (airLeft - airLeftAtEnd));
      double surplusG = surplusGPerH * (Forecast.FADING_H * (surplusLeft - surplusLeftAtEnd));
      return Math.max(0, meanGPerH * parts.get(ofDay) * inAirH + surplusG);
    }

    private static double left(double afterH, double withinH) {
      return Math.exp(-afterH / withinH);
    }

    /** The loss within an hour grows steadily; bisection needs no more than that. */
    private double within(double restG, double endH) {
      double low = atH;
      double high = endH;
      for (int halving = 0; halving < 48 && high - low > WITHIN_H; halving++) {
        double middle = (low + high) / 2;
        if (lossUntil(middle) < restG) {
          low = middle;
        } else {
          high = middle;
        }
      }
      return (low + high) / 2;
    }
  }
}
