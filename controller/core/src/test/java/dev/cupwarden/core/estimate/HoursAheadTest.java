package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/** By day (08:00 to 20:00) 1.8 times the mean, by night 0.2. */
class HoursAheadTest {
  private static HoursAhead from(double hour) {
    List<Double> parts = new ArrayList<>();
    for (int each = 0; each < 24; each++) {
      parts.add(each >= 8 && each < 20 ? 1.8 : 0.2);
    }
    return new HoursAhead(hour, parts, 1);
  }

  private static HoursAhead ahead(DayProfile day, double hour) {
    return HoursAhead.of(day.usual(), day.air(), hour);
  }

  /** From 06:30 on: 1.5 h at 0.2 g/h, then 1.8 g/h. */
  @Test
  void presentRateOfItsHourAddsNothing() {
    HoursAhead morning = from(6.5);
    assertEquals(0.3, morning.lossG(1.5, 0.2, 1), 1e-9);
    assertEquals(0.3 + 1.8, morning.lossG(2.5, 0.2, 1), 1e-9);
    assertEquals(0.3 + 12 * 1.8 + 0.5 * 0.2, morning.lossG(14, 0.2, 1), 1e-9);
    assertEquals(24, morning.lossG(24, 0.2, 1), 1e-9, "a day");
    assertEquals(240, morning.lossG(240, 0.2, 1), 1e-9, "ten");
    assertEquals(2.5, morning.hours(2.1, 0.2, 1), 1e-4);
    assertEquals(0.75, morning.hours(0.15, 0.2, 1), 1e-4);
    assertEquals(240, morning.hours(240, 0.2, 1), 1e-3);
    assertEquals(242.5, morning.hours(242.1, 0.2, 1), 1e-3);
  }

  /** A surplus of 1 g/h now fades with 4 h: 4 (1 - e^(-2)) = 3.4587 g in 8 h. */
  @Test
  void surplusOfNowFades() {
    assertEquals(8 * 1.8 + 3.4587, from(8).lossG(8, 2.8, 1), 1e-4);
    assertEquals(8, from(8).hours(8 * 1.8 + 3.45866, 2.8, 1), 1e-3);
    assertEquals(8 * 1.8 - 3.4587, from(8).lossG(8, 0.8, 1), 1e-4);
  }

  /** 1.8 g/h are missing at 19:00; at night no more than nothing is lost. */
  @Test
  void noHourGivesWater() {
    double fadedG = 4 * (1 - Math.exp(-0.25));
    double firstG = 1.8 - 1.8 * fadedG;
    assertEquals(firstG, from(19).lossG(1, 0, 1), 1e-9);
    assertEquals(firstG, from(19).lossG(2, 0, 1), 1e-9, "0.2 less 1.2");
  }

  @Test
  void aYearIsTheLongest() {
    assertEquals(8760, HoursAhead.EVEN.hours(8759.9999, 1, 1), 0.01);
    assertEquals(Double.POSITIVE_INFINITY, HoursAhead.EVEN.hours(8760.1, 1, 1));
    assertEquals(Double.POSITIVE_INFINITY, HoursAhead.EVEN.hours(1, 0, 0));
    assertEquals(0, HoursAhead.EVEN.lossG(100, 0, 0));
  }

  @Test
  void withoutAProfileOrAnHourAllAreAlike() {
    assertSame(HoursAhead.EVEN, ahead(DayProfile.NONE, 8));
    DayProfile day = DayProfile.NONE;
    for (int hour = 0; hour < 73; hour++) {
      day = day.add(hour % 24 >= 8 && hour % 24 < 20 ? 3 : 1, 1, 1, hour % 24 + 1);
    }
    assertSame(HoursAhead.EVEN, ahead(day, Double.NaN));
    HoursAhead ahead = ahead(day, 9.25);
    assertEquals(9.25, ahead.fromHour());
    assertEquals(1.5, ahead.parts().get(9), 1e-6);
    assertEquals(0.5, ahead.parts().get(2), 1e-6);
  }

  /** Air that doubles use, fading with 48 h: in 24 h 24 + 48 (1 - e^(-1/2)) = 42.8866. */
  @Test
  void airOfLateFadesInTwoDays() {
    HoursAhead even = new HoursAhead(0, HoursAhead.EVEN.parts(), 2);
    assertEquals(42.8866, even.lossG(24, 2, 1), 1e-3);
    assertEquals(24, even.hours(42.8866, 2, 1), 1e-3);
    // All of it is 48 g; after six days the rest of them, 48 e^(-3), is let go.
    assertEquals(240 + 48 - 48 * Math.exp(-3), even.lossG(240, 2, 1), 1e-3);
  }

  /** Of a cup that lost nothing of late no hour is more than another. */
  @Test
  void levelOfNothingIsEven() {
    DayProfile none =
        new DayProfile(
            Collections.nCopies(24, 1.0),
            Collections.nCopies(24, 1.0),
            0,
            48,
            0,
            5,
            0,
            0,
            DayProfile.Hour.NONE);
    assertSame(HoursAhead.EVEN, ahead(none, 8));
  }

  /** The seventh day is the first that is taken whole: 144 + 48 (1 - e^(-3)) + 24. */
  @Test
  void oneWholeDayIsSkipped() {
    HoursAhead even = new HoursAhead(0, HoursAhead.EVEN.parts(), 2);
    assertEquals(168 + 48 * (1 - Math.exp(-3)), even.lossG(168, 2, 1), 1e-9);
  }

  /**
   * 2 g/h in air that doubles it: 2 x (144 + 48 (1 - e^(-3))) g in six days, four whole days and
   * then half a day again by the hour.
   */
  @Test
  void hoursAfterTheSixthDayAreReachedByWholeDays() {
    HoursAhead even = new HoursAhead(0, HoursAhead.EVEN.parts(), 2);
    double sixDaysG = 144 + 48 * (1 - Math.exp(-3));
    double restG = 96 + 12 + 48 * (Math.exp(-240 / 48.0) - Math.exp(-252 / 48.0));
    assertEquals(252, even.hours(2 * (sixDaysG + restG), 4, 2), 1e-3);
  }
}
