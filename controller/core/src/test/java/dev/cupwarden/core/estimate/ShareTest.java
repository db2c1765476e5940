package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** A bench that loses 3 g/h in the light and 0.5 by night, each for twelve hours. */
class ShareTest {
  private static final double LIGHT = 3;
  private static final double DARK = 0.5;

  private static Share day(Share share, double lightPart, double darkPart, int wateredH) {
    Share now = share;
    for (int hour = 0; hour < 12; hour++) {
      now = now.plus(darkPart * DARK, DARK, 1);
    }
    for (int hour = 0; hour < 12; hour++) {
      now = hour < wateredH ? now.watered(LIGHT, 1) : now.plus(lightPart * LIGHT, LIGHT, 1);
    }
    return now;
  }

  /**
   * Days of 2 and then 3 g for each of the bench's, by hand: the second goes half the way, and what
   * it was off by is ln 1.5.
   */
  @Test
  void firstDaysAreAPlainMean() {
    Share one = Share.NONE.plus(48, 1, 24);
    assertEquals(Math.log(2), one.log(), 1e-12);
    assertEquals(0, one.indexLog(), 1e-12);
    assertEquals(1, one.days());
    assertEquals(2, one.part(), 1e-12);
    assertEquals(1, one.usualIndex(), 1e-12);
    double off = Math.log(1.5);
    Share two = one.plus(72, 1, 24);
    assertEquals(Math.log(2) + off / 2, two.log(), 1e-12);
    assertEquals(off * off / 4, two.dayVar(), 1e-12);
    assertEquals(0, two.trendPerDay());
    assertEquals(2, two.days());
  }

  /** A sixth day that is off by ln 1.5: a sixth of the way, and two hundredths are trend. */
  @Test
  void laterDaysHaveATrend() {
    Share learned = Share.NONE;
    for (int day = 0; day < 5; day++) {
      assertEquals(day >= 4, learned.known());
      learned = learned.plus(48, 1, 24);
    }
    double off = Math.log(1.5);
    Share sixth = learned.plus(72, 1, 24);
    assertEquals(Math.log(2) + off / 6, sixth.log(), 1e-12);
    assertEquals(0.02 * off, sixth.trendPerDay(), 1e-12);
    // The trend of a day unseen has faded by 0.05.
    assertEquals(sixth.part() * Math.exp(0.95 * 0.02 * off), sixth.partNow(1, 1), 1e-9);
    assertEquals(sixth.part(), sixth.partNow(0, 1), 1e-9);
  }

  /**
   * A share with a trend of 0.1 and a slope of 1 / (2 + 2), by hand, after a day whose index is e
   * times the usual and whose x is 0.5: expected are 0.095 + 0.25, it is off by 0.155. The day
   * counts twice, so a third of the way.
   */
  @Test
  void brightDayByHand() {
    Share learned = new Share(0, 0.1, 0.01, 0, 2, 1, 5, 0, 0, 0, BrightHours.NONE);
    Share after = learned.plus(24 * Math.E * Math.exp(0.5), Math.E, 24);
    double kept = Math.exp(-1 / 30.0);
    assertEquals(0.095 + 0.155 / 3, after.log(), 1e-12);
    assertEquals(0.095 + 0.04 * 0.155, after.trendPerDay(), 1e-12);
    assertEquals(2 / 3.0 * (0.01 + 0.155 * 0.155 / 3), after.dayVar(), 1e-12);
    assertEquals(1 / 6.0, after.indexLog(), 1e-12);
    assertEquals(2 * kept + 2, after.squares(), 1e-12);
    assertEquals(kept + 2 * 0.405, after.products(), 1e-12);
    assertEquals(6, after.days());
  }

  /** Of a dim day a fifth counts, and no day is off by more than a factor of five. */
  @Test
  void dimAndOddDaysCountLess() {
    Share learned = new Share(0, 0, 0.01, 0, 0, 0, 5, 0, 0, 0, BrightHours.NONE);
    double dim = Math.exp(-2);
    Share after = learned.plus(24 * dim * Math.exp(0.5), dim, 24);
    assertEquals(0.2 / 6 * 0.5, after.log(), 1e-12);
    Share odd = learned.plus(24 * 100, 1, 24);
    assertEquals(Math.log(5) / 6, odd.log(), 1e-12);
    Share none = learned.plus(24 / 100.0, 1, 24);
    assertEquals(-Math.log(5) / 6, none.log(), 1e-12);
  }

  @Test
  void trendIsLearnedFromTheFifthDayOn() {
    Share fourth = new Share(0, 0, 0, 0, 0, 0, 3, 0, 0, 0, BrightHours.NONE);
    assertEquals(0, fourth.plus(48, 1, 24).trendPerDay());
    Share fifth = new Share(0, 0, 0, 0, 0, 0, 4, 0, 0, 0, BrightHours.NONE);
    assertEquals(0.02 * Math.log(2), fifth.plus(48, 1, 24).trendPerDay(), 1e-12);
  }

  /** Slope 0.25 on an index that is by 0.5 brighter, in logarithms, than the usual. */
  @Test
  void shareOfABrightDay() {
    Share learned = new Share(0.2, 0, 0.01, 0.5, 2, 1, 5, 0, 0, 0, BrightHours.NONE);
    assertEquals(Math.exp(0.2 + 0.125), learned.partNow(3, Math.E), 1e-12);
    assertEquals(Math.exp(0.2 + Math.log(5)), learned.partNow(3, Math.exp(20)), 1e-9);
  }

  @Test
  void brightHoursAreKeptByTheirIndex() {
    Share learned = new Share(0, 0, 0, 0, 0, 0, 5, 0, 0, 0, BrightHours.NONE);
    assertEquals(new BrightHours(7, 6, 0), learned.plus(7, 3, 2).bright());
    assertEquals(new BrightHours(0, 0, 6), learned.watered(3, 2).bright());
    assertEquals(BrightHours.NONE, learned.plus(7, 1, 2).bright(), "the usual is not bright");
    assertSame(learned, learned.watered(1, 2));
    assertSame(learned, learned.watered(3, 0), "no time");
  }

  @Test
  void dayIsOverAfterTwentyFourHoursThatWereSeen() {
    Share open = Share.NONE.plus(40, 1, 20);
    assertEquals(0, open.days());
    assertEquals(40, open.openLostG());
    assertEquals(20, open.openH());
    assertEquals(1, open.plus(8, 1, 4).days());
    assertSame(open, open.plus(5, 0, 1), "no index");
    assertSame(open, open.plus(5, 1, 0), "no time");
    assertEquals(0, open.plus(-60, 1, 4).days(), "a day that gained is none");
    assertEquals(0, open.plus(-60, 1, 4).openH());
    assertEquals(0, open.plus(-40, 1, 4).days(), "nor is one that lost nothing");
    Share unlike = new Share(0, 0, 0, 0, 0, 0, 5, 12, 0, 20, BrightHours.NONE);
    assertEquals(5, unlike.watered(3, 4).days(), "nor one in which the bench lost nothing");
  }

  /** No day scatters by less than 0.05, nor does a level err by less. */
  @Test
  void doubtOfAShare() {
    Share even = Share.NONE.plus(48, 1, 24).plus(48, 1, 24);
    assertEquals(0.05, even.dayScatter());
    assertEquals(0.0025, even.levelVar(), 1e-12);
    Share odd = new Share(0, 0, 0.09, 0, 0, 0, 5, 0, 0, 0, BrightHours.NONE);
    assertEquals(0.3, odd.dayScatter(), 1e-12);
    assertEquals(0.018, odd.levelVar(), 1e-12);
    Share month = new Share(0, 0, 0.09, 0, 0, 0, 30, 0, 0, 0, BrightHours.NONE);
    assertEquals(0.09 / 14, month.levelVar(), 1e-12);
  }

  /** Left out, those hours would make 1.64 of the leafy cup's 1.71. */
  @Test
  void hoursOfWateringCountAsTheOtherBrightOnes() {
    Share share = Share.NONE;
    // Which hours are bright is not known before the first day.
    share = day(share, 1.9, 0.6, 0);
    for (int day = 0; day < 20; day++) {
      share = day(share, 1.9, 0.6, 5);
    }
    double true24h = (12 * 1.9 * LIGHT + 12 * 0.6 * DARK) / (12 * (LIGHT + DARK));
    assertEquals(true24h, share.part(), 0.002);
    assertEquals(21, share.days());
  }

  @Test
  void aDimDaySaysLessThanABrightOne() {
    Share learned = Share.NONE;
    for (int day = 0; day < 10; day++) {
      learned = day(learned, 1, 1, 0);
    }
    Share bright = learned;
    Share dim = learned;
    for (int hour = 0; hour < 24; hour++) {
      bright = bright.plus(1.2 * LIGHT, LIGHT, 1);
      dim = dim.plus(1.2 * 0.1, 0.1, 1);
    }
    assertTrue(bright.log() > 4 * dim.log(), bright.log() + ", " + dim.log());
  }

  @Test
  void aShareKeptByAnOlderProgramHasNoBrightHours() {
    Share older = new Share(0.1, 0, 0, 0, 0, 0, 5, 12, 12, 12, null);
    assertEquals(6, day(older, 1, 1, 3).days());
  }
}
