package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Drying power is the deficit and 0.1 kPa; a scale follows the room in three quarters of an hour.
 */
class WeatherTest {
  private static final double NONE = Double.NaN;

  @ParameterizedTest(name = "{0} kPa: {1}")
  @CsvSource({"0, 0.1", "0.9, 1.0", "12, 12.1", "12.1, 0.5", "-0.1, 0.5", "NaN, 0.5"})
  void deficitThatCannotBeLeavesTheAirAsItWas(double vpdKpa, double driveKpa) {
    assertEquals(driveKpa, new Weather(0.5, 20).next(vpdKpa, NONE, 1).driveKpa(), 1e-12);
  }

  @Test
  void scaleTakesOnTheRoomsWarmth() {
    assertEquals(25, Weather.UNKNOWN.next(NONE, 25, 1).scaleTempC(), "as first known");
    Weather warmer = new Weather(0.5, 20).next(NONE, 30, 0.75);
    assertEquals(20 + 10 * (1 - 1 / Math.E), warmer.scaleTempC(), 1e-12);
    assertEquals(20, new Weather(0.5, 20).next(NONE, 30, 0).scaleTempC(), 1e-12);
  }

  @ParameterizedTest(name = "{0} °C: {1} °C")
  @CsvSource({"-39.9, -39.9", "84.9, 84.9", "-40, 20", "85, 20", "NaN, 20"})
  void temperatureThatCannotBeIsNotTakenOn(double tempC, double scaleC) {
    assertEquals(scaleC, new Weather(0.5, 20).next(NONE, tempC, 1e6).scaleTempC(), 1e-9);
  }

  @ParameterizedTest(name = "{0} kPa after {1} kPa: {2} times")
  @CsvSource({
    "1.0, 0.5, 2",
    "0.5, 1.0, 0.5",
    "3, 0.5, 5",
    "0.1, 1.0, 0.2",
    "NaN, 1, 1",
    "1, NaN, 1"
  })
  void rateChangesWithDryingPower(double now, double before, double times) {
    assertEquals(times, new Weather(now, 20).against(new Weather(before, 20)), 1e-12);
  }

  @Test
  void warmthIsCountedFromTwentyDegrees() {
    assertEquals(5, new Weather(0.5, 25).warmC());
    assertEquals(0, Weather.UNKNOWN.warmC());
    assertTrue(Double.isNaN(Weather.UNKNOWN.driveKpa()));
  }
}
