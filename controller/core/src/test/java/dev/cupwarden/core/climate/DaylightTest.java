package dev.cupwarden.core.climate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.setup.Place;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.shredzone.commons.suncalc.SunTimes;

class DaylightTest {
  private static final Duration TWO_MINUTES = Duration.ofMinutes(2);

  @Test
  @Outside(source = "commons-suncalc 3.11, 2000 random places below 62 degrees, days 2000 to 2060")
  void sunriseAndSunsetAgreeWithAnAstronomicalLibrary() {
    Random random = new Random(56);
    for (int i = 0; i < 2000; i++) {
      Place place =
          new Place(random.nextDouble(-62, 62), random.nextDouble(-180, 180), ZoneOffset.UTC);
      LocalDate date = LocalDate.of(2000, 1, 1).plusDays(random.nextInt(60 * 365));
      Daylight ours = Daylight.on(date, place);
      Instant rise = nextRise(place, ours.sunrise().minus(Duration.ofHours(6)));
      Instant set = nextSet(place, ours.sunset().minus(Duration.ofHours(6)));
      assertClose(rise, ours.sunrise(), TWO_MINUTES, place + " " + date);
      assertClose(set, ours.sunset(), TWO_MINUTES, place + " " + date);
    }
  }

  @Test
  @Outside(source = "FAO-56 (Allen et al. 1998), equation 34, 2000 random places and days")
  void theDayIsAsLongAsFaoSaysButForRefraction() {
    Random random = new Random(34);
    for (int i = 0; i < 2000; i++) {
      double latitudeDeg = random.nextDouble(-55, 55);
      LocalDate date = LocalDate.of(2026, 1, 1).plusDays(random.nextInt(365));
      Daylight ours = Daylight.on(date, new Place(latitudeDeg, 0, ZoneOffset.UTC));
      double longerMin =
          ours.length().toSeconds() / 60.0 - 60 * faoHours(latitudeDeg, date.getDayOfYear());
      // Refraction and the sun's radius: 6.7 min at the equator, 15 min at 55 degrees. FAO's
      // declination strays by up to 1.35 degrees in October: another 15 min at 55 degrees.
      assertTrue(longerMin > -2 && longerMin < 30, latitudeDeg + " " + date + " " + longerMin);
    }
  }

  /** Equations 24, 25 and 34. */
  private static double faoHours(double latitudeDeg, int day) {
    double declination = 0.409 * Math.sin(2 * Math.PI / 365 * day - 1.39);
    double set = Math.acos(-Math.tan(Math.toRadians(latitudeDeg)) * Math.tan(declination));
    return 24 / Math.PI * set;
  }

  private static Instant nextRise(Place place, Instant from) {
    return SunTimes.compute()
        .on(from.atZone(ZoneOffset.UTC))
        .at(place.latitudeDeg(), place.longitudeDeg())
        .execute()
        .getRise()
        .toInstant();
  }

  private static Instant nextSet(Place place, Instant from) {
    return SunTimes.compute()
        .on(from.atZone(ZoneOffset.UTC))
        .at(place.latitudeDeg(), place.longitudeDeg())
        .execute()
        .getSet()
        .toInstant();
  }

  private static void assertClose(Instant expected, Instant actual, Duration within, String where) {
    Duration off = Duration.between(expected, actual).abs();
    assertTrue(off.compareTo(within) <= 0, where + ": " + expected + " but " + actual);
  }

  @Test
  void theSunDoesNotSetInPolarSummer() {
    Daylight day =
        Daylight.on(LocalDate.of(2027, 6, 21), new Place(70, 25, ZoneId.of("Europe/Oslo")));
    assertEquals(Duration.ofHours(24), day.length());
  }

  @Test
  void theSunDoesNotRiseInPolarWinter() {
    Daylight night =
        Daylight.on(LocalDate.of(2026, 12, 21), new Place(70, 25, ZoneId.of("Europe/Oslo")));
    assertEquals(Duration.ZERO, night.length());
  }

  @ParameterizedTest
  @CsvSource({"90, 0", "-90, 0"})
  void atThePolesTheSunIsUpOrDownForHalfAYear(double latitudeDeg, double longitudeDeg) {
    Place pole = new Place(latitudeDeg, longitudeDeg, ZoneOffset.UTC);
    double june = Daylight.on(LocalDate.of(2027, 6, 1), pole).length().toHours();
    double december = Daylight.on(LocalDate.of(2026, 12, 1), pole).length().toHours();
    assertEquals(24, june + december);
  }

  @ParameterizedTest(name = "{2}")
  @CsvSource({
    "1.87, -157.4, Pacific/Kiritimati",
    "54.9, -1.6, Europe/London",
    "-36.8, 174.8, Pacific/Auckland",
    "43.8, 87.6, Asia/Shanghai"
  })
  void noonOfTheDaylightLiesOnTheDateOfThePlacesOwnCalendar(
      double latitudeDeg, double longitudeDeg, String zone) {
    LocalDate date = LocalDate.of(2027, 2, 14);
    Daylight day = Daylight.on(date, new Place(latitudeDeg, longitudeDeg, ZoneId.of(zone)));
    Instant noon = day.sunrise().plus(day.length().dividedBy(2));
    assertEquals(date, noon.atZone(ZoneId.of(zone)).toLocalDate());
  }

  @ParameterizedTest
  @CsvSource({"91, 0", "NaN, 0", "50, 181", "50, NaN"})
  void aPlaceOffTheGlobeIsRefused(double latitudeDeg, double longitudeDeg) {
    Place nowhere = new Place(latitudeDeg, longitudeDeg, ZoneOffset.UTC);
    assertThrows(
        IllegalArgumentException.class, () -> Daylight.on(LocalDate.of(2027, 2, 14), nowhere));
  }
}
