package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LowAirTest {
  private static final double LINE = 0.2;
  private static final double A_DAY_FOR_A_TENTH = 0.1 / 24;
  private LowAir air = LowAir.NONE;

  private void stands(int hours, double from, double perH, double rootC) {
    for (int hour = 0; hour < hours; hour++) {
      air = air.look(1, from + perH * hour, LINE, rootC, A_DAY_FOR_A_TENTH);
    }
  }

  /** From 0.05 to 0.2 it needs a day and a half. */
  @Test
  void ordinaryDryingIsNoRotWeather() {
    stands(36, 0.05, A_DAY_FOR_A_TENTH, 20);
    assertEquals(36, air.needH(), 1e-9);
    assertFalse(air.tooLong());
    stands(4, 0.2, A_DAY_FOR_A_TENTH, 20);
    assertEquals(LowAir.NONE, air);
  }

  @Test
  void halfAsLongAgainIsAndDryingEndsIt() {
    stands(55, 0.05, 0.0, 20);
    assertFalse(air.tooLong());
    stands(2, 0.05, 0.0, 20);
    assertTrue(air.tooLong());
    stands(1, LINE + 0.011, 0.0, 20);
    assertEquals(LowAir.NONE, air);
  }

  @Test
  void coolHoursAndThoseOfWhichNothingIsKnownDoNotCount() {
    stands(100, 0.05, 0.0, 15);
    stands(100, 0.05, 0.0, Double.NaN);
    assertEquals(0, air.warmH());
  }

  @Test
  void waterThatOnlyStandsBeforeItDrainsIsGoneWithinADay() {
    air = air.look(1, LINE - 0.001, LINE, 20, 0.01);
    assertEquals(24, air.mostH());
  }

  @Test
  void aWeighingADayCountsAndAWeekOfNoneDoesNot() {
    air = air.look(24, 0.05, LINE, 20, A_DAY_FOR_A_TENTH);
    air = air.look(24, 0.05, LINE, 20, A_DAY_FOR_A_TENTH);
    assertEquals(24, air.warmH());
    air = air.look(168, 0.05, LINE, 20, A_DAY_FOR_A_TENTH);
    assertEquals(24, air.warmH());
  }

  @Test
  void airIsEnoughAtTheLineAndAHundredthPastItOnceItWasLow() {
    assertEquals(LowAir.NONE, LowAir.NONE.look(1, LINE, LINE, 20, A_DAY_FOR_A_TENTH));
    LowAir low = LowAir.NONE.look(1, 0.05, LINE, 20, A_DAY_FOR_A_TENTH);
    assertEquals(1, low.look(1, LINE + 0.009, LINE, 20, A_DAY_FOR_A_TENTH).warmH(), "no flicker");
    assertEquals(LowAir.NONE, low.look(1, LINE + 0.01, LINE, 20, A_DAY_FOR_A_TENTH));
  }

  @Test
  void gapOfThirtyHoursStillCounts() {
    LowAir low = LowAir.NONE.look(1, 0.05, LINE, 20, A_DAY_FOR_A_TENTH);
    assertEquals(30, low.look(30, 0.05, LINE, 20, A_DAY_FOR_A_TENTH).warmH());
    assertEquals(0, low.look(30.1, 0.05, LINE, 20, A_DAY_FOR_A_TENTH).warmH());
  }

  /** A day at least; of a cup that needs 36 h, 54. */
  @Test
  void allThatACupNeedsIsNotTooLong() {
    assertFalse(new LowAir(24, 0).tooLong());
    assertTrue(new LowAir(24.1, 0).tooLong());
    assertFalse(new LowAir(54, 36).tooLong());
    assertTrue(new LowAir(54.1, 36).tooLong());
  }
}
