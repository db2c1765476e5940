package dev.cupwarden.core.estimate;

import java.util.Collections;
import java.util.List;

/**
 * How the hours to come differ in what a cup loses in them.
 *
 * <p>A day and a half is walked hour by hour, what comes later by whole days and then again by the
 * hour: by then the present rate has faded.
 *
 * @param fromHour of the day at which they begin, 0 to 24
 * @param parts of the mean of a day in each of its hours, from midnight on; their mean is 1
 */
record HoursAhead(double fromHour, List<Double> parts) {
  /** All alike. */
  static final HoursAhead EVEN = new HoursAhead(0, Collections.nCopies(DayProfile.HOURS, 1.0));

  private static final double LONGEST_H = 24 * 365;

  /** A tenth of a second. */
  private static final double WITHIN_H = 0.1 / 3600;

  private static final double WALKED_H = 48;

  /** As far as the profile of the cup's days is known, and the hour. */
  static HoursAhead of(DayProfile day, double hour) {
    if (!day.known() || Double.isNaN(hour)) {
      return EVEN;
    }
    List<Double> each = day.gPerH();
    double mean = day.meanGPerH();
    return mean > 0 ? new HoursAhead(hour, each.stream().map(one -> one / mean).toList()) : EVEN;
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

  private double part(double afterH) {
    int hour = (int) Math.floor(fromHour + afterH + 1e-9);
    return parts.get(Math.floorMod(hour, DayProfile.HOURS));
  }

  /** One way through the hours. */
  private final class Walk {
    private final double meanGPerH;
    private final double surplusGPerH;
    private double atH;
    private double lostG;

    Walk(double nowGPerH, double meanGPerH) {
      this.meanGPerH = meanGPerH;
      this.surplusGPerH = nowGPerH - meanGPerH * part(0);
    }

    double lostAt(double hours) {
      while (atH < hours) {
        skipDays(Math.floor((hours - atH) / 24));
        double endH = Math.min(hours, nextH());
        lostG += lossBetween(atH, endH);
        atH = endH;
      }
      return lostG;
    }

    double hoursTo(double targetG) {
      while (atH <= LONGEST_H) {
        skipDays(Math.floor((targetG - lostG) / (24 * meanGPerH)));
        double endH = nextH();
        double stepG = lossBetween(atH, endH);
        if (lostG + stepG >= targetG) {
          double hours = within(targetG - lostG, endH);
          return hours <= LONGEST_H ? hours : Double.POSITIVE_INFINITY;
        }
        lostG += stepG;
        atH = endH;
      }
      return Double.POSITIVE_INFINITY;
    }

    /** Once the present rate has faded, and not for ever. */
    private void skipDays(double days) {
      if (atH >= WALKED_H && days >= 1) {
        double skipped = Math.min(days, LONGEST_H);
        atH += 24 * skipped;
        lostG += 24 * skipped * meanGPerH;
      }
    }

    private double nextH() {
      return Math.floor(fromHour + atH + 1 + 1e-9) - fromHour;
    }

    private double lossBetween(double fromH, double toH) {
      double faded =
          Forecast.FADING_H
              * (Math.exp(-fromH / Forecast.FADING_H) - Math.exp(-toH / Forecast.FADING_H));
      return Math.max(0, meanGPerH * part(fromH) * (toH - fromH) + surplusGPerH * faded);
    }

    /** The loss within an hour grows steadily; bisection needs no more than that. */
    private double within(double restG, double endH) {
      double low = atH;
      double high = endH;
      for (int halving = 0; halving < 48 && high - low > WITHIN_H; halving++) {
        double middle = (low + high) / 2;
        if (lossBetween(atH, middle) < restG) {
          low = middle;
        } else {
          high = middle;
        }
      }
      return (low + high) / 2;
    }
  }
}
