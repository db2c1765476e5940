package dev.cupwarden.simulator.grower;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.simulator.faults.FaultLevel;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import org.junit.jupiter.api.Test;

class GrowerTest {
  private static final Instant START = Instant.parse("2026-11-15T20:00:00Z");

  @Test
  void looksEverySecondOrThirdDayAndIsOnceAwayForNine() {
    for (int seed = 0; seed < 30; seed++) {
      Grower grower =
          new Grower(FaultLevel.COMMON, ZoneOffset.UTC, START, 120, Grower.USUAL_TRIP_DAYS, seed);
      LocalDate last = null;
      int journeys = 0;
      for (int tick = 0; tick < 120 * 288; tick++) {
        Instant at = START.plus(Duration.ofMinutes(5L * tick));
        if (!grower.comes(at, 5)) {
          continue;
        }
        LocalDate day = at.atZone(ZoneOffset.UTC).toLocalDate();
        assertTrue(!grower.away(day), "at the bench while away");
        long apart = last == null ? 2 : ChronoUnit.DAYS.between(last, day);
        journeys += apart > 3 ? 1 : 0;
        assertTrue(apart <= 3 || apart == 10, "days between looks: " + apart);
        last = day;
      }
      assertEquals(1, journeys);
    }
  }
}
