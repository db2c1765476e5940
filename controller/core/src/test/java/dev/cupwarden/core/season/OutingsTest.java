package dev.cupwarden.core.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Optional;
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

  /** Out from 9:00 to 12:00, in hard weather for two hours, or for a minute more. */
  @Test
  void onlyAnHourOfWeatherThatHardensMakesADay() {
    Instant noon = MONDAY.plusSeconds(10_800);
    Outings out = Outings.NONE.gone(MONDAY);
    Outings two = out.inHardWeather(MONDAY.minusSeconds(300), MONDAY.plusSeconds(7_200));
    assertEquals(7_200, two.hardS(), "from when it left, not from the look before");
    assertEquals(1, two.days(noon, ZoneOffset.UTC));
    assertEquals(1, two.there(noon).days(day(1), ZoneOffset.UTC));
    Outings more = two.inHardWeather(MONDAY.plusSeconds(7_200), MONDAY.plusSeconds(7_260));
    assertEquals(0, more.days(noon, ZoneOffset.UTC));
    assertEquals(0, more.there(noon).days(day(1), ZoneOffset.UTC));
    assertEquals(0, more.there(noon).gone(day(1)).hardS(), "each time out is its own");
    assertEquals(out, out.inHardWeather(null, noon), "the first look has none before it");
    assertEquals(Outings.NONE, Outings.NONE.inHardWeather(MONDAY, noon));
  }

  @Test
  void itIsOutFromAnHourOnAndAfterADayItStandsElsewhere() {
    Outings out = Outings.NONE.gone(MONDAY);
    assertFalse(Outings.NONE.out(MONDAY));
    assertFalse(out.out(MONDAY.plusSeconds(3_599)));
    assertTrue(out.out(MONDAY.plusSeconds(3_600)));
    assertTrue(out.out(day(1).minusSeconds(1)));
    assertFalse(out.out(day(1)));
  }

  @Test
  void whatIsOlderThanAFortnightIsForgotten() {
    Outings old = out(Outings.NONE, MONDAY, 60);
    assertEquals(1, old.days(day(14).plusSeconds(3_600), ZoneOffset.UTC));
    assertEquals(0, old.days(day(14).plusSeconds(3_601), ZoneOffset.UTC));
    assertEquals(1, out(old, day(15), 60).past().size());
  }

  private static Outings threeDays(int minutesOut) {
    Outings three = Outings.NONE;
    for (int day = 0; day < 3; day++) {
      // 9:00, 9:30 and 10:00.
      three = out(three, day(day).plusSeconds(1_800L * day), minutesOut);
    }
    return three;
  }

  @Test
  void afterThreeLikeDaysItIsExpectedTwoHoursAfterTheLatestReturn() {
    Outings three = threeDays(8 * 60);
    assertEquals(
        Optional.of(day(3).plusSeconds(11 * 3_600)),
        three.gone(day(3)).expectedBack(ZoneOffset.UTC),
        "18:00 was the latest return");
    assertEquals(Optional.empty(), three.expectedBack(ZoneOffset.UTC), "it is there");
  }

  @Test
  void twoDaysOtherTimesOrAnotherWeekAreNoHabit() {
    Outings two = out(out(Outings.NONE, MONDAY, 480), day(1), 480);
    assertEquals(Optional.empty(), two.gone(day(2)).expectedBack(ZoneOffset.UTC));
    Outings three = threeDays(480);
    // 9:00 to 11:30 are 150 minutes, one more is too late.
    assertTrue(three.gone(day(3).plusSeconds(9_000)).expectedBack(ZoneOffset.UTC).isPresent());
    assertTrue(three.gone(day(3).plusSeconds(9_060)).expectedBack(ZoneOffset.UTC).isEmpty());
    assertTrue(three.gone(day(7)).expectedBack(ZoneOffset.UTC).isPresent());
    assertTrue(three.gone(day(8)).expectedBack(ZoneOffset.UTC).isEmpty(), "the first is too old");
    Outings twiceADay = out(out(two, day(2), 60), day(2).plusSeconds(7_200), 60);
    assertTrue(twiceADay.gone(day(3)).expectedBack(ZoneOffset.UTC).isEmpty(), "two days in three");
  }

  @Test
  void aNightOnWhichItWasForgottenEndsNoHabit() {
    Outings forgotten = out(threeDays(480), day(3), 22 * 60);
    assertEquals(
        Optional.of(day(4).plusSeconds(11 * 3_600)),
        forgotten.gone(day(4)).expectedBack(ZoneOffset.UTC));
    Outings twoAndANight = out(out(out(Outings.NONE, MONDAY, 480), day(1), 480), day(2), 22 * 60);
    assertEquals(
        Optional.empty(), twoAndANight.gone(day(3)).expectedBack(ZoneOffset.UTC), "no third day");
  }
}
