package dev.cupwarden.core.climate;

import dev.cupwarden.core.argument.Argument;
import dev.cupwarden.core.setup.Place;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;

/**
 * When the sun is up at a place on a day, to within some two minutes below the polar circles.
 *
 * <p>Source: the low-precision formulas for the sun of the Astronomical Almanac (from memory; the
 * tests hold them against a library); rise and set as the upper limb at the horizon under mean
 * refraction, 0.833 degrees below.
 *
 * @param sunrise start of the daylight; at solar noon in polar night, 12 h before it in polar day
 * @param sunset end of the daylight; at solar noon in polar night, 12 h after it in polar day
 */
public record Daylight(Instant sunrise, Instant sunset) {
  private static final Instant J2000 = Instant.parse("2000-01-01T12:00:00Z");
  private static final double DAY_S = 86_400;
  private static final double SIN_HORIZON = Math.sin(Math.toRadians(-0.833));

  /**
   * The daylight whose noon lies nearest to the clock's noon of that date.
   *
   * @param date as the calendar at the place shows it
   * @throws IllegalArgumentException for a latitude or longitude out of range
   */
  public static Daylight on(LocalDate date, Place place) {
    Argument.within("latitudeDeg", place.latitudeDeg(), -90, 90);
    Argument.within("longitudeDeg", place.longitudeDeg(), -180, 180);
    Instant clockNoon = date.atTime(LocalTime.NOON).atZone(place.zone()).toInstant();
    Instant noon = solarNoon(clockNoon, place.longitudeDeg());
    return new Daylight(
        crossing(noon, place.latitudeDeg(), -1), crossing(noon, place.latitudeDeg(), 1));
  }

  /** From sunrise to sunset: nothing in polar night, 24 h in polar day. */
  public Duration length() {
    return Duration.between(sunrise, sunset);
  }

  private static Instant solarNoon(Instant near, double longitudeDeg) {
    double meanHours = hoursUtc(near) + longitudeDeg / 15 - 12;
    double toMeanNoonH = -(meanHours - 24 * Math.rint(meanHours / 24));
    Instant meanNoon = plusHours(near, toMeanNoonH);
    return plusHours(meanNoon, -Sun.at(meanNoon).equationOfTimeH());
  }

  /** Rise (-1) or set (1): the sun's own place at that hour, found in a few rounds. */
  private static Instant crossing(Instant noon, double latitudeDeg, int side) {
    double hours = 6;
    for (int round = 0; round < 5; round++) {
      Sun sun = Sun.at(plusHours(noon, side * hours));
      hours = Math.toDegrees(sun.hourAngleAtHorizon(Math.toRadians(latitudeDeg))) / 15;
    }
    return plusHours(noon, side * hours);
  }

  private static double hoursUtc(Instant at) {
    return Math.floorMod(at.getEpochSecond(), (long) DAY_S) / 3600.0;
  }

  private static Instant plusHours(Instant at, double hours) {
    return at.plusSeconds(Math.round(hours * 3600));
  }

  /** Where the sun stands, and how far its noon lies from the mean sun's. */
  private record Sun(double declination, double equationOfTimeH) {
    static Sun at(Instant at) {
      double days = Duration.between(J2000, at).toSeconds() / DAY_S;
      double meanLongitude = Math.toRadians(280.460 + 0.9856474 * days);
      double anomaly = Math.toRadians(357.528 + 0.9856003 * days);
      double longitude =
          meanLongitude
              + Math.toRadians(1.915) * Math.sin(anomaly)
              + Math.toRadians(0.020) * Math.sin(2 * anomaly);
      double obliquity = Math.toRadians(23.439 - 0.0000004 * days);
      double rightAscension =
          Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude));
      double ahead = Math.IEEEremainder(meanLongitude - rightAscension, 2 * Math.PI);
      return new Sun(
          Math.asin(Math.sin(obliquity) * Math.sin(longitude)), Math.toDegrees(ahead) / 15);
    }

    double hourAngleAtHorizon(double latitude) {
      double cos =
          (SIN_HORIZON - Math.sin(latitude) * Math.sin(declination))
              / (Math.cos(latitude) * Math.cos(declination));
      return Math.acos(Math.max(-1, Math.min(1, cos)));
    }
  }
}
