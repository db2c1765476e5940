package dev.cupwarden.core.estimate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/**
 * How a cup's use goes through the hours of the day, by the bench's clock: what a lamp, the sun and
 * the leaves that answer to them make of it, where nobody measures light, and what is to be
 * expected of the hours to come.
 *
 * <p>Each hour's loss per kPa of drying power is followed from day to day by a fading mean. How far
 * the hours are told apart is what that mean bears out: with scatter s² of a single hour about its
 * mean, weight a of the newest day and variance v of the hours' means, they are drawn towards the
 * day's mean by the part a/(2 − a)·s²/v (W. James and C. Stein 1961, Proc. 4th Berkeley Symp.
 * 1:361; from memory). So the profile of a cup that dries evenly is flat, however noisy its scale.
 *
 * @param perKpa loss per drying power in each hour, g/h and kPa; NaN: not seen; empty: nothing is
 *     known
 * @param driveKpa mean drying power in each hour, kPa; likewise
 * @param scatter variance of an hour's loss per drying power about its mean
 * @param hours taken in
 * @param lostG lost of late, fading, g
 * @param expectedG what the profile expected of those hours, fading likewise, g
 * @param airKpaH drying power of late, fading within half a day, kPa·h
 * @param usualKpaH what it usually is in those hours, fading likewise, kPa·h
 * @param open the hour that runs
 */
record DayProfile(
    List<Double> perKpa,
    List<Double> driveKpa,
    double scatter,
    int hours,
    double lostG,
    double expectedG,
    double airKpaH,
    double usualKpaH,
    Hour open) {
  static final int HOURS = 24;

  /** Nothing learned. */
  static final DayProfile NONE = new DayProfile(List.of(), List.of(), 0, 0, 0, 0, 0, 0, Hour.NONE);

  private static final List<Double> UNSEEN = List.copyOf(Collections.nCopies(HOURS, Double.NaN));

  /**
   * Of the hours of three days and more (our choice): leaves grow, a lamp is set to other hours.
   */
  private static final double STEP = 0.25;

  /** As long as the use of whole days is remembered, h. */
  private static final double LEVEL_FADE_H = 18;

  /** Weather changes within a day (our choice), h. */
  private static final double AIR_FADE_H = 12;

  /** Of the scatter, in hours: two days. */
  private static final double SCATTER_STEP = 1.0 / 48;

  /** Half of an hour tells of it (our choice). */
  private static final double LEAST_SEEN_H = 0.5;

  /** Each hour was seen twice (our choice). */
  private static final int LEAST_HOURS = 2 * HOURS;

  /** No hour uses less than this part of the day's mean, whatever the scale's noise made of it. */
  private static final double LEAST_PART = 0.02;

  /** What a look saw beyond this of an hour is no use of water: a leak, a spill (our choice). */
  private static final double MOST_TIMES_MEAN = 10;

  /**
   * An hour that runs.
   *
   * @param of the day, 0 to 23; below 0: none
   * @param lostG in it so far
   * @param seenH of it
   * @param driveKpaH drying power summed over that
   */
  record Hour(int of, double lostG, double seenH, double driveKpaH) {
    static final Hour NONE = new Hour(-1, 0, 0, 0);

    Hour plus(double moreG, double moreH, double drive) {
      return new Hour(of, lostG + moreG, seenH + moreH, driveKpaH + drive * moreH);
    }
  }

  /**
   * After a time of drying.
   *
   * @param hour of the day at its end; NaN: not known, and nothing is learned
   * @param hoursLong of it, no more than one
   * @param drive of the air, kPa; NaN: not known, and counts 1
   */
  DayProfile add(double lost, double hoursLong, double drive, double hour) {
    if (!(hoursLong > 0 && hoursLong <= 1) || Double.isNaN(hour)) {
      return this;
    }
    int of = slot(hour - hoursLong / 2);
    double kpa = drive > 0 ? drive : 1;
    DayProfile before = of == open.of() ? this : closed();
    Hour now = of == open.of() ? open : new Hour(of, 0, 0, 0);
    return before.with(now.plus(lost, hoursLong, kpa));
  }

  private DayProfile with(Hour other) {
    return new DayProfile(
        perKpa, driveKpa, scatter, hours, lostG, expectedG, airKpaH, usualKpaH, other);
  }

  private DayProfile closed() {
    if (open.seenH() < LEAST_SEEN_H) {
      return this;
    }
    List<Double> rates = perKpa.isEmpty() ? UNSEEN : perKpa;
    List<Double> drives = perKpa.isEmpty() ? UNSEEN : driveKpa;
    int of = open.of();
    double was = rates.get(of);
    double drive = open.driveKpaH() / open.seenH();
    double seen = open.lostG() / open.driveKpaH();
    if (Double.isNaN(was)) {
      return new DayProfile(
          set(rates, of, seen),
          set(drives, of, drive),
          scatter,
          hours + 1,
          lostG,
          expectedG,
          airKpaH,
          usualKpaH,
          open);
    }
    double mean = mean();
    double most = MOST_TIMES_MEAN * Math.max(mean, 0) + was;
    double off = Math.max(-most, Math.min(most, seen - was));
    double step = Math.max(1.0 / (hours / HOURS + 1), STEP);
    double scatterStep = Math.max(1.0 / Math.max(1, hours - HOURS + 1), SCATTER_STEP);
    double fade = Math.exp(-open.seenH() / LEVEL_FADE_H);
    double airFade = Math.exp(-open.seenH() / AIR_FADE_H);
    double foretoldG = Math.max(LEAST_PART * mean, was) * open.driveKpaH();
    return new DayProfile(
        set(rates, of, was + step * off),
        set(drives, of, drives.get(of) + step * (drive - drives.get(of))),
        scatter + scatterStep * (off * off - scatter),
        hours + 1,
        lostG * fade + open.lostG(),
        expectedG * fade + foretoldG,
        airKpaH * airFade + open.driveKpaH(),
        usualKpaH * airFade + drives.get(of) * open.seenH(),
        open);
  }

  /** Rounded to what the journal keeps in four bytes: a profile is known far less well. */
  private static List<Double> set(List<Double> values, int at, double value) {
    List<Double> changed = new ArrayList<>(values);
    changed.set(at, (double) (float) value);
    return List.copyOf(changed);
  }

  private static int slot(double hour) {
    return Math.floorMod((int) Math.floor(hour), HOURS);
  }

  /** Whether the hours can be told apart. */
  boolean known() {
    return knownMean() > 0;
  }

  /**
   * Loss per drying power over the day, g/h and kPa; not above 0 where hours cannot be told apart.
   */
  private double knownMean() {
    return hours >= LEAST_HOURS ? mean() : 0;
  }

  /** Part by which a rate of that hour changes in this; 1 where nothing is known. */
  double times(double beforeHour, double nowHour) {
    if (Double.isNaN(beforeHour) || Double.isNaN(nowHour) || slot(beforeHour) == slot(nowHour)) {
      return 1;
    }
    double mean = knownMean();
    if (!(mean > 0)) {
      return 1;
    }
    double kept = kept(mean);
    return at(slot(nowHour), mean, kept) / at(slot(beforeHour), mean, kept);
  }

  /**
   * What the hours of its days use in their own usual air.
   *
   * @param gPerH by hour of the day
   * @param meanGPerH of those
   */
  record Usual(List<Double> gPerH, double meanGPerH) {}

  /** Empty where the hours cannot be told apart. */
  Optional<Usual> usual() {
    double mean = knownMean();
    if (!(mean > 0)) {
      return Optional.empty();
    }
    double kept = kept(mean);
    double usualKpa = meanOf(driveKpa);
    double level = expectedG > 0 ? Math.max(0, lostG / expectedG) : 1;
    List<Double> each = new ArrayList<>(HOURS);
    for (int hour = 0; hour < HOURS; hour++) {
      double drive = driveKpa.get(hour);
      each.add(level * at(hour, mean, kept) * (Double.isNaN(drive) ? usualKpa : drive));
    }
    return Optional.of(new Usual(each, meanOf(each)));
  }

  /** How the air of late dries beside what is usual at those hours; 1: as usual. */
  double air() {
    return usualKpaH > 0 ? airKpaH / usualKpaH : 1;
  }

  private double at(int hour, double mean, double kept) {
    double own = perKpa.get(hour);
    double drawn = Double.isNaN(own) ? mean : mean + kept * (own - mean);
    return Math.max(LEAST_PART * mean, drawn);
  }

  /** How far the hours differ beyond what their own scatter makes them differ, 0 to 1. */
  private double kept(double mean) {
    double squares = 0;
    int seen = 0;
    for (double each : perKpa) {
      if (!Double.isNaN(each)) {
        squares += (each - mean) * (each - mean);
        seen++;
      }
    }
    double spread = squares / Math.max(1, seen - 1);
    double step = Math.max(1.0 / (hours / HOURS + 1), STEP);
    double ofMeans = scatter * step / (2 - step);
    return spread > ofMeans ? 1 - ofMeans / spread : 0;
  }

  private double mean() {
    return meanOf(perKpa);
  }

  private static double meanOf(List<Double> values) {
    double sum = 0;
    int seen = 0;
    for (int hour = 0; hour < values.size(); hour++) {
      double each = values.get(hour);
      if (!Double.isNaN(each)) {
        sum += each;
        seen++;
      }
    }
    return seen == 0 ? 0 : sum / seen;
  }
}
