package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A cup that loses 3 g/h and kPa from 08:00 to 20:00 and 1 g/h and kPa by night. */
class DayProfileTest {
  private static double perKpa(int hour) {
    return hour >= 8 && hour < 20 ? 3 : 1;
  }

  /** Hours in which it loses so many times its use, in air of that drying power. */
  private static DayProfile days(DayProfile from, int hours, double times, double driveKpa) {
    DayProfile day = from;
    for (int hour = 0; hour < hours; hour++) {
      double lostG = times * perKpa(hour % 24) * driveKpa / 2;
      day = day.add(lostG, 0.5, driveKpa, hour % 24 + 0.5);
      day = day.add(lostG, 0.5, driveKpa, hour % 24 + 1);
    }
    return day;
  }

  private static DayProfile.Usual usual(DayProfile day) {
    return day.usual().orElseThrow();
  }

  @Test
  void tellsNothingOfTheFirstTwoDays() {
    DayProfile young = days(DayProfile.NONE, 48, 1, 1);
    assertEquals(47, young.hours(), "the last hour still runs");
    assertFalse(young.known());
    assertEquals(1, young.times(7.9, 8));
    DayProfile known = days(DayProfile.NONE, 49, 1, 1);
    assertTrue(known.known());
  }

  @Test
  void rateChangesAsTheHoursDo() {
    DayProfile day = days(DayProfile.NONE, 72, 1, 0.8);
    assertEquals(3, day.times(7.95, 8), 1e-6);
    assertEquals(1.0 / 3, day.times(19.95, 20), 1e-6);
    assertEquals(1, day.times(12, 15), 1e-6);
    assertEquals(1, day.times(8.0, 8.9));
    assertEquals(3, day.times(-0.5, 12), 1e-6, "from half an hour before midnight");
    assertEquals(1, day.times(Double.NaN, 8));
    assertEquals(1, day.times(7, Double.NaN));
  }

  /** In air of 0.8 kPa: 2.4 g/h by day and 0.8 by night, 1.6 on the mean. */
  @Test
  void hoursAreToldInTheirOwnAir() {
    DayProfile day = days(DayProfile.NONE, 73, 1, 0.8);
    assertEquals(0.8, usual(day).gPerH().get(3), 1e-6);
    assertEquals(2.4, usual(day).gPerH().get(8), 1e-6);
    assertEquals(1.6, usual(day).meanGPerH(), 1e-6);
  }

  /** A third day at twice the use: the plain mean of three of it, (1 + 1 + 2) / 3. */
  @Test
  void firstDaysAreAPlainMeanAndLaterOnesFadeByAQuarter() {
    DayProfile day = days(DayProfile.NONE, 48, 1, 1);
    day = days(day, 24, 2, 1);
    assertEquals(4.0 / 3, day.perKpa().get(3), 1e-6);
    day = days(day, 24, 2, 1);
    // A quarter of the way from 4/3 to 2.
    assertEquals(1.5, day.perKpa().get(3), 1e-6);
    day = days(day, 24, 2, 1);
    assertEquals(1.625, day.perKpa().get(3), 1e-6);
  }

  /** Use has doubled since the profile was learned: its level follows within the day. */
  @Test
  void levelFollowsSoonerThanTheHoursDo() {
    DayProfile day = days(DayProfile.NONE, 240, 1, 1);
    assertEquals(2, usual(day).meanGPerH(), 1e-6);
    day = days(day, 24, 2, 1);
    // The hours' means have come a quarter of the way, to 2.5; e^(-24/18) = 0.2636 of the sums is
    // of before, at 1 to 1, the rest at 2 to 1: 2.5 x 1.7364.
    assertEquals(4.34, usual(day).meanGPerH(), 0.15);
  }

  /**
   * Each hour of three days differs by ±0.5 from the last: what 24 even hours show of noise is no
   * profile.
   */
  @Test
  void scatterIsTakenForNoProfile() {
    java.util.Random random = new java.util.Random(5);
    DayProfile day = DayProfile.NONE;
    for (int hour = 0; hour < 240; hour++) {
      day = day.add(2 + 0.5 * random.nextGaussian(), 1, 1, hour % 24 + 1);
    }
    for (int hour = 0; hour < 23; hour++) {
      assertEquals(1, day.times(hour, hour + 1), 0.12);
    }
  }

  @Test
  void nothingIsLearnedOfALongGapOrOfAnUnknownHour() {
    assertSame(DayProfile.NONE, DayProfile.NONE.add(3, 1.01, 1, 9));
    assertSame(DayProfile.NONE, DayProfile.NONE.add(3, 0, 1, 9));
    assertSame(DayProfile.NONE, DayProfile.NONE.add(3, 0.5, 1, Double.NaN));
  }

  /** Less than half of an hour seen tells nothing of it; half does. */
  @Test
  void anHourNeedsHalfOfItSeen() {
    DayProfile little = DayProfile.NONE.add(1, 0.49, 1, 8.5).add(1, 1, 1, 10);
    assertEquals(0, little.hours());
    DayProfile half = DayProfile.NONE.add(1, 0.5, 2, 8.5).add(1, 1, 1, 10);
    assertEquals(1, half.hours());
    assertEquals(1, half.perKpa().get(8), 1e-9, "1 g in half an hour at 2 kPa");
    assertEquals(2, half.driveKpa().get(8), 1e-9);
    DayProfile unknownAir = DayProfile.NONE.add(3, 1, Double.NaN, 9).add(1, 1, 1, 10);
    assertEquals(3, unknownAir.perKpa().get(8), 1e-9, "air that is not known counts 1");
  }

  /** An hour's loss counts at most ten times the day's mean, and what it was. */
  @Test
  void aSpillIsNoUse() {
    DayProfile day = days(DayProfile.NONE, 240, 1, 1);
    double before = day.perKpa().get(3);
    DayProfile spilt = day.add(500, 1, 1, 4).add(1, 1, 1, 5);
    // Off by at most 10 x 2 + 1, a quarter of which is taken in.
    assertEquals(before + 21 / 4.0, spilt.perKpa().get(3), 1e-5);
  }

  @Test
  void anHourThatLosesNothingKeepsALittle() {
    DayProfile day = DayProfile.NONE;
    for (int hour = 0; hour < 73; hour++) {
      day = day.add(hour % 24 < 12 ? 0 : 2, 1, 1, hour % 24 + 1);
    }
    // A fiftieth of the mean of 1.
    assertEquals(0.02, usual(day).gPerH().get(0), 1e-3);
    assertEquals(100, day.times(11, 12), 1);
  }

  /** Ten days at 1 kPa, then 12 h at 2 kPa: 1 - 1/e of the fading sums is of those. */
  @Test
  void airOfLateIsHeldAgainstTheUsual() {
    DayProfile day = days(DayProfile.NONE, 240, 1, 1);
    assertEquals(1, day.air(), 1e-6);
    DayProfile dry = days(day, 12, 1, 2).add(0, 0.1, 1, 12.1);
    assertEquals(2 - 1 / Math.E, dry.air(), 0.02);
    assertEquals(1, DayProfile.NONE.air());
  }

  /** The usual in every hour but in the first of the day, in which these. */
  private static List<Double> hours(double usual, double... fromMidnight) {
    List<Double> each = new ArrayList<>(Collections.nCopies(24, usual));
    for (int hour = 0; hour < fromMidnight.length; hour++) {
      each.set(hour, fromMidnight[hour]);
    }
    return each;
  }

  /**
   * By hand: 1 g/h and kPa in each hour but the first, which had 3 in air of 0.5 kPa. Now it loses
   * 1.2 g in 0.75 h at 0.8 kPa, 2 g/h and kPa, which is off by -1. In the second day the mean goes
   * half the way; of seven hours seen again a seventh of the scatter is this one's.
   */
  @Test
  void hourThatEndsIsTakenIn() {
    DayProfile.Hour open = new DayProfile.Hour(0, 1.2, 0.75, 0.6);
    DayProfile day =
        new DayProfile(hours(1, 3), hours(0.8, 0.5), 0.2, 30, 10, 8, 6, 5, open).add(1, 1, 1, 2);
    assertEquals(2.5, day.perKpa().get(0), 1e-6);
    assertEquals(0.65, day.driveKpa().get(0), 1e-6, "half the way from 0.5 to 0.8");
    assertEquals(0.2 + (1 - 0.2) / 7, day.scatter(), 1e-12);
    assertEquals(31, day.hours());
    double kept = Math.exp(-0.75 / 18);
    assertEquals(10 * kept + 1.2, day.lostG(), 1e-12);
    assertEquals(8 * kept + 3 * 0.6, day.expectedG(), 1e-12);
    double ofAir = Math.exp(-0.75 / 12);
    assertEquals(6 * ofAir + 0.6, day.airKpaH(), 1e-12);
    assertEquals(5 * ofAir + 0.5 * 0.75, day.usualKpaH(), 1e-12);
    assertEquals(new DayProfile.Hour(1, 1, 1, 1), day.open());
  }

  /**
   * Hours of 1, 2 and 6 have a mean of 3 and a variance of (4 + 1 + 9) / 2 = 7. In the third day a
   * mean moves by a third, so of a scatter of 14 it keeps 14 / 3 / (2 - 1 / 3) = 2.8: what is borne
   * out is 1 - 2.8 / 7 = 0.6 of how far an hour lies off the mean, so 1.8, 2.4 and 4.8. Lately it
   * lost half as much again as expected.
   */
  @Test
  void hoursAreDrawnTowardsTheMeanAsFarAsTheyScatter() {
    List<Double> perKpa = hours(Double.NaN, 1, 2, 6);
    List<Double> air = hours(Double.NaN, 0.5, 1, 2);
    DayProfile day = new DayProfile(perKpa, air, 14, 48, 3, 2, 0, 0, DayProfile.Hour.NONE);
    List<Double> each = usual(day).gPerH();
    assertEquals(1.5 * 1.8 * 0.5, each.get(0), 1e-12);
    assertEquals(1.5 * 2.4 * 1, each.get(1), 1e-12);
    assertEquals(1.5 * 4.8 * 2, each.get(2), 1e-12);
    assertEquals(1.5 * 3 * 3.5 / 3, each.get(3), 1e-12, "not seen: the mean, in the mean air");
    assertEquals(4.8 / 1.8, day.times(0.5, 2.5), 1e-12);
    assertEquals(3 / 1.8, day.times(0.5, 12), 1e-12);
  }

  @Test
  void withNothingExpectedOfLateTheLevelIsAsLearned() {
    DayProfile day = new DayProfile(hours(2), hours(0.5), 0, 48, 0, 0, 0, 0, DayProfile.Hour.NONE);
    assertEquals(hours(1), usual(day).gPerH());
  }

  /** A fiftieth of the mean of 2 g/h and kPa. */
  @Test
  void hourOfNothingIsExpectedToLoseALittle() {
    DayProfile.Hour open = new DayProfile.Hour(0, 0, 1, 0.5);
    List<Double> perKpa = hours(Double.NaN, 0, 4);
    DayProfile day = new DayProfile(perKpa, hours(Double.NaN, 1, 1), 0, 48, 0, 0, 0, 0, open);
    assertEquals(0.04, usual(day).gPerH().get(0), 1e-12);
    assertEquals(0.04 * 0.5, day.add(1, 1, 1, 2).expectedG(), 1e-12);
  }

  @Test
  void cupThatLosesNothingHasNoProfile() {
    DayProfile day = new DayProfile(hours(0), hours(1), 0, 48, 0, 0, 0, 0, DayProfile.Hour.NONE);
    assertFalse(day.known());
    assertEquals(1, day.times(3, 12));
  }

  @Test
  void airOfNoDryingPowerCountsOne() {
    assertEquals(3, DayProfile.NONE.add(3, 1, 0, 9).add(1, 1, 1, 10).perKpa().get(8), 1e-6);
  }
}
