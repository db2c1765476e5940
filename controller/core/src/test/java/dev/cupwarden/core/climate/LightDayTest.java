package dev.cupwarden.core.climate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

/** A lamp of 100 µmol that burns day and night: 8.64 mol a day. */
class LightDayTest {
  private static final Instant NOON = Instant.parse("2027-03-01T12:00:00Z");

  private static LightDay lit(LightDay from, int firstHour, int lastHour) {
    LightDay light = from;
    for (int hour = firstHour; hour <= lastHour; hour++) {
      Instant at = NOON.plusSeconds(3_600L * hour);
      light = light.plus(at, at.atZone(ZoneOffset.UTC).toLocalDate(), 100);
    }
    return light;
  }

  @Test
  void theFirstWholeDayIsToldOnceItIsOver() {
    assertEquals(Double.NaN, lit(LightDay.NONE, 0, 35).lastMolPerM2(), "12 h, and a day not over");
    assertEquals(8.64, lit(LightDay.NONE, 0, 36).lastMolPerM2(), 1e-9);
  }

  @Test
  void aDayWithALongGapIsNotTold() {
    LightDay begun = lit(LightDay.NONE, 0, 20);
    assertEquals(Double.NaN, lit(begun, 23, 36).lastMolPerM2(), "three hours are missing");
    assertEquals(8.64, lit(begun, 22, 36).lastMolPerM2(), 1e-9, "two are bridged");
  }

  @Test
  void aDayThatNobodySawKeepsWhatWasKnown() {
    LightDay known = lit(LightDay.NONE, 0, 36);
    assertEquals(8.64, lit(known, 80, 90).lastMolPerM2(), 1e-9);
  }
}
