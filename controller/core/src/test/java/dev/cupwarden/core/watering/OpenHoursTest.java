package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.climate.Daylight;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.Window;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OpenHoursTest {
  private static final Place LONDON = new Place(51.5, 0.0, ZoneId.of("Europe/London"));
  private static final OpenHours HOURS =
      new OpenHours(new Window.Hours(LocalTime.of(8, 0), LocalTime.of(16, 0)), Optional.of(LONDON));

  @ParameterizedTest(name = "{0}: open {1}, with an hour more {2}, next {3}")
  @CsvSource({
    "2027-02-14T07:59:59Z, false, false, 2027-02-14T08:00:00Z",
    "2027-02-14T08:00:00Z, true, true, 2027-02-15T08:00:00Z",
    "2027-02-14T15:59:59Z, true, true, 2027-02-15T08:00:00Z",
    "2027-02-14T16:00:00Z, false, true, 2027-02-15T08:00:00Z",
    "2027-02-14T17:00:00Z, false, false, 2027-02-15T08:00:00Z",
    // British summer time is an hour ahead, from 2027-03-28 on.
    "2027-06-14T06:59:59Z, false, false, 2027-06-14T07:00:00Z",
    "2027-06-14T07:00:00Z, true, true, 2027-06-15T07:00:00Z",
    "2027-06-14T15:00:00Z, false, true, 2027-06-15T07:00:00Z",
    "2027-03-27T17:00:00Z, false, false, 2027-03-28T07:00:00Z"
  })
  void setTimesAreThoseOfTheGrowersClock(
      Instant at, boolean open, boolean openLonger, Instant next) {
    assertEquals(open, HOURS.open(at, Duration.ZERO));
    assertEquals(openLonger, HOURS.open(at, Duration.ofHours(1)));
    assertEquals(next, HOURS.nextOpening(at));
  }

  @Test
  void withoutAPlaceTheyAreInUtc() {
    OpenHours anywhere =
        new OpenHours(new Window.Hours(LocalTime.of(8, 0), LocalTime.of(16, 0)), Optional.empty());
    assertEquals(
        Instant.parse("2027-06-14T08:00:00Z"),
        anywhere.nextOpening(Instant.parse("2027-06-14T07:30:00Z")));
  }

  @Test
  void emptyWindowNeverOpens() {
    OpenHours shut =
        new OpenHours(new Window.Hours(LocalTime.of(8, 0), LocalTime.of(8, 0)), Optional.empty());
    Instant at = Instant.parse("2027-06-14T08:00:00Z");
    assertEquals(false, shut.open(at, Duration.ofHours(1)));
    assertEquals(at.plus(Duration.ofDays(190)), shut.nextOpening(at));
  }

  /** The top of a cup is to dry before night: common practice. */
  @Test
  void daylightIsFromSunriseToTwoHoursBeforeSunset() {
    OpenHours light = new OpenHours(new Window.Daylight(), Optional.of(LONDON));
    Daylight sun = Daylight.on(LocalDate.parse("2027-02-14"), LONDON);
    OpenHours.Span span = light.dayOf(Instant.parse("2027-02-14T12:00:00Z"));
    assertEquals(sun.sunrise(), span.from());
    assertEquals(sun.sunset().minus(Duration.ofHours(2)), span.to());
  }

  @Test
  void answerIsNotKeptBeyondItsOpening() {
    OpenHours hours =
        new OpenHours(new Window.Hours(LocalTime.of(8, 0), LocalTime.of(16, 0)), Optional.empty());
    Instant noon = Instant.parse("2027-02-14T12:00:00Z");
    Instant next = Instant.parse("2027-02-15T08:00:00Z");
    assertEquals(next, hours.nextOpening(noon));
    assertEquals(next, hours.nextOpening(noon.plusSeconds(60)));
    assertEquals(next.plus(Duration.ofDays(1)), hours.nextOpening(next));
    assertEquals(
        Instant.parse("2027-02-14T08:00:00Z"), hours.nextOpening(noon.minus(Duration.ofHours(8))));
  }
}
