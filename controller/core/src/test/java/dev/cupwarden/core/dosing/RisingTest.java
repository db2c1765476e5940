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
