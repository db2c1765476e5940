package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** A cup of 300 g on a scale that is read every five minutes. */
class RisingTest {
  private static final Instant EVENING = Instant.parse("2027-01-20T20:00:00Z");
  private static final double TICKS_AN_HOUR = 12.0;

  private final SplittableRandom random = new SplittableRandom(7);
  private Rising rising = Rising.NONE;
  private Instant at = EVENING;
  private double massG = 300.0;

  @Test
  void slowDripShowsInANight() {
    hours(8, 0.6, 0.1);
    assertTrue(rising.leaking(0.0), "8 h of 0.6 g/h are 4.8 g");
    assertEquals(4.8, rising.climbedG(), 0.8);
  }

  @Test
  void openValveShowsWithinAnHour() {
    hours(1, 20.0, 0.1);
    assertTrue(rising.leaking(0.0));
  }

  @Test
  void noisyScaleIsNoLeakInAWeek() {
    for (int tick = 0; tick < 7 * 24 * TICKS_AN_HOUR; tick++) {
      tick(-0.2, 3.0);
      assertFalse(rising.leaking(0.0), "after " + tick + " readings, sd 3 g");
    }
  }

  @Test
  void noiseThatSetsInIsNoLeak() {
    for (int spell = 0; spell < 100; spell++) {
      hours(3, -0.3, 0.1);
      for (int tick = 0; tick < 2 * TICKS_AN_HOUR; tick++) {
        tick(-0.3, 2.0);
        assertFalse(rising.leaking(0.0), "spell " + spell);
      }
    }
  }

  @Test
  void coldNightThatMakesTheCellDriftIsNoLeak() {
    for (int tick = 0; tick < 12 * TICKS_AN_HOUR; tick++) {
      tick(0.12, 0.1);
      assertFalse(rising.leaking(0.0), "1.4 g in 12 h");
    }
  }

  @Test
  void dewOnEveryCupIsNoLeakOfOne() {
    hours(5, 0.9, 0.1);
    assertTrue(rising.leaking(0.0));
    assertFalse(rising.leaking(4.0), "the others gained 4 g too");
  }

  @Test
  void doseBeginsAnew() {
    hours(4, 0.6, 0.1);
    rising = rising.dosed();
    hours(1, 0.6, 0.1);
    assertFalse(rising.leaking(0.0));
  }

  /** The half hour ends with the reading that is 30 minutes after its first; four at least. */
  @Test
  void halfHourOfFourReadings() {
    readings(5, 300, 300, 300, 300, 300, 300);
    assertTrue(Double.isNaN(rising.lowG()), "25 minutes");
    readings(5, 300);
    assertEquals(300.0, rising.lowG());
    assertEquals(at, rising.lowAt());
    assertEquals(3.0, rising.thresholdG(), "the least");

    rising = Rising.NONE;
    readings(30, 300, 300, 300);
    assertTrue(Double.isNaN(rising.lowG()), "three readings");
    readings(30, 300);
    assertEquals(300.0, rising.lowG());
  }

  @Test
  void readingsMoreThanHalfAnHourApartAreNotTakenTogether() {
    readings(31, 300, 300, 300, 300, 300, 300, 300, 300);
    assertTrue(Double.isNaN(rising.lowG()));
  }

  /** Means of 300 ... 306 and 306 ... 312 g: 303 and 309 g; a steady climb is no noise. */
  @Test
  void climbIsThatOfTheMeans() {
    readings(5, 300, 301, 302, 303, 304, 305, 306);
    Instant low = at;
    readings(5, 307, 308, 309, 310, 311, 312);
    assertEquals(0.0, rising.noiseG(), 1e-12);
    assertEquals(6.0, rising.climbedG(), 1e-12);
    assertTrue(rising.leaking(2.99));
    assertFalse(rising.leaking(3.0), "at its threshold of 3 g");
    assertEquals(12.0, rising.climbingGPerH(low.plusSeconds(900)), 1e-12, "half an hour at least");
    assertEquals(4.0, rising.climbingGPerH(low.plusSeconds(5400)), 1e-12);
    assertFalse(Rising.NONE.leaking(-1.0), "nothing is known of it");
  }

  /**
   * Second differences of 4 g in five of seven readings: noise² = 80 / (6 x 5), and a climb must be
   * beyond 8 sqrt(80 / 30 x 2 / 7). In the next half hour one of 2 g: 4 / 30, of which three tenths
   * are learned.
   */
  @Test
  void noiseIsLearnedFromSecondDifferences() {
    readings(5, 300, 302, 300, 302, 300, 302, 300);
    assertEquals(Math.sqrt(80.0 / 30.0), rising.noiseG(), 1e-12);
    assertEquals(6.983, rising.thresholdG(), 0.001);
    assertEquals(300.0 + 6.0 / 7.0, rising.lowG(), 1e-12);
    readings(5, 300, 300, 300, 300, 300, 300);
    assertEquals(Math.sqrt(0.7 * 80.0 / 30.0 + 0.3 * 4.0 / 30.0), rising.noiseG(), 1e-12);
    assertEquals(6.983, rising.thresholdG(), 0.001, "as loud as it was");
  }

  @Test
  void lowestHalfHourHoldsForTwelveHours() {
    readings(5, 300, 300, 300, 300, 300, 300, 300);
    Instant low = at;
    while (at.isBefore(low.plusSeconds(12 * 3600))) {
      readings(5, 301, 301, 301, 301, 301, 301);
    }
    assertEquals(low, rising.lowAt());
    assertEquals(1.0, rising.climbedG(), 1e-12);
    readings(5, 301, 301, 301, 301, 301, 301);
    assertEquals(at, rising.lowAt());
    assertEquals(301.0, rising.lowG(), 1e-12);
    assertEquals(0.0, rising.climbedG());
  }

  @Test
  void halfHourAsLowAsTheLowestTakesItsPlace() {
    readings(5, 300, 300, 300, 300, 300, 300, 300);
    readings(5, 300, 300, 300, 300, 300, 300);
    assertEquals(at, rising.lowAt());
  }

  /** 3 g, or six standard deviations. */
  @Test
  void singleRiseThatAPersonOrAPassMayHaveMade() {
    assertEquals(3.0, Rising.stepG(0.1));
    assertEquals(3.0, Rising.stepG(0.5));
    assertEquals(6.0, Rising.stepG(1.0));
  }

  private void readings(int minutesApart, double... masses) {
    for (double reading : masses) {
      at = at.plusSeconds(60L * minutesApart);
      rising = rising.read(at, reading);
    }
  }

  private void hours(double hours, double gPerH, double noiseG) {
    for (int tick = 0; tick < hours * TICKS_AN_HOUR + 1; tick++) {
      tick(gPerH, noiseG);
    }
  }

  private void tick(double gPerH, double noiseG) {
    at = at.plusSeconds(300);
    massG += gPerH / TICKS_AN_HOUR;
    rising = rising.read(at, massG + noiseG * random.nextGaussian());
  }
}
