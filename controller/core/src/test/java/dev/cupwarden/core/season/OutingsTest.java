package dev.cupwarden.core.season;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class OutingsTest {
  private static final Instant MONDAY = Instant.parse("2027-04-05T09:00:00Z");

  private static Instant day(int day) {
    return MONDAY.plus(Duration.ofDays(day));
  }

  private static Outings out(Outings before, Instant at, int minutes) {
    Instant back = at.plus(Duration.ofMinutes(minutes));
    return before.gone(at).gone(back.minusSeconds(60)).there(back).there(back.plusSeconds(60));
  }

  @Test
  void anHourIsADayOutAndLessIsAHand() {
    assertEquals(1, out(Outings.NONE, MONDAY, 60).days(day(1), ZoneOffset.UTC));
    assertEquals(0, out(Outings.NONE, MONDAY, 59).days(day(1), ZoneOffset.UTC));
  }

  @Test
  void twiceADayIsOneDayAndTodayCountsOnceItHasLasted() {
    Outings twice = out(out(Outings.NONE, MONDAY, 90), MONDAY.plusSeconds(10_800), 90);
    assertEquals(2, twice.past().size());
    assertEquals(1, twice.days(day(1), ZoneOffset.UTC));
    Outings outNow = twice.gone(day(1));
    assertEquals(1, outNow.days(day(1).plusSeconds(3_599), ZoneOffset.UTC));
    assertEquals(2, outNow.days(day(1).plusSeconds(3_600), ZoneOffset.UTC));
  }

  @Test
  void whatIsOlderThanAFortnightIsForgotten() {
    Outings old = out(Outings.NONE, MONDAY, 60);
    assertEquals(1, old.days(day(14).plusSeconds(3_600), ZoneOffset.UTC));
    assertEquals(0, old.days(day(14).plusSeconds(3_601), ZoneOffset.UTC));
    assertEquals(1, out(old, day(15), 60).past().size());
  }
}
