package dev.cupwarden.core.climate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MouldHoursTest {
  private static final Instant EVENING = Instant.parse("2027-02-14T20:00:00Z");
  private static final Duration TIMEOUT = Duration.ofMinutes(12);

  @Test
  void humidAndMildForEightHoursIsTold() {
    MouldHours dome = humidTo(MouldHours.NONE, 0, 7 * 60 + 59);
    assertFalse(dome.alarm(), "7 h 59 min");
    assertTrue(after(dome, 8 * 60, 18, 90).alarm(), "8 h");
  }

  @ParameterizedTest(name = "{0} C {1} %")
  @CsvSource({"18, 84.9", "11.9, 90", "24.1, 90"})
  void oneReadingOutsideStartsTheCountAnew(double tempC, double rhPct) {
    MouldHours dome = after(humidTo(MouldHours.NONE, 0, 7 * 60), 7 * 60 + 1, tempC, rhPct);
    assertEquals(Duration.ZERO, dome.lasted());
    assertFalse(humidTo(dome, 7 * 60 + 2, 15 * 60 + 1).alarm());
    assertTrue(humidTo(dome, 7 * 60 + 2, 15 * 60 + 2).alarm());
  }

  @ParameterizedTest(name = "{0} C {1} %")
  @CsvSource({"12, 85", "24, 100"})
  void theBoundsThemselvesCount(double tempC, double rhPct) {
    MouldHours dome = after(MouldHours.NONE, 0, tempC, rhPct);
    assertEquals(Duration.ofMinutes(5), after(dome, 5, tempC, rhPct).lasted());
  }

  @Test
  void aGapLongerThanTheTimeoutStartsTheCountAnew() {
    MouldHours dome = humidTo(MouldHours.NONE, 0, 7 * 60);
    assertTrue(after(dome, 7 * 60 + 12, 18, 90).lasted().toHours() >= 7, "12 min is no gap");
    assertEquals(Duration.ZERO, after(dome, 7 * 60 + 13, 18, 90).lasted());
  }

  @Test
  void noSenseIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> after(MouldHours.NONE, 0, Double.NaN, 90));
    assertThrows(IllegalArgumentException.class, () -> after(MouldHours.NONE, 0, 18, 101));
    MouldHours later = after(MouldHours.NONE, 5, 18, 90);
    assertThrows(IllegalArgumentException.class, () -> after(later, 4, 18, 90));
  }

  private static MouldHours humidTo(MouldHours hours, int fromMinute, int toMinute) {
    MouldHours next = hours;
    for (int minute = fromMinute; minute <= toMinute; minute++) {
      next = after(next, minute, 18, 90);
    }
    return next;
  }

  private static MouldHours after(MouldHours hours, int minute, double tempC, double rhPct) {
    return hours.after(EVENING.plus(Duration.ofMinutes(minute)), tempC, rhPct, TIMEOUT);
  }
}
