package dev.cupwarden.core.climate;

import dev.cupwarden.core.argument.Argument;

/**
 * Possible hours of daylight by the formulas of FAO-56 (Allen et al. 1998), chapter 3: sun's
 * centre, no refraction, so some ten minutes shorter than {@link Daylight}. For light sums and
 * their planning; the window opens and closes by {@link Daylight}.
 */
public final class DayLength {
  private DayLength() {}

  /**
   * Declination of the sun, radians; equation 24.
   *
   * @param dayOfYear 1 to 366
   * @throws IllegalArgumentException outside of that range
   */
  public static double declination(int dayOfYear) {
    Argument.within("dayOfYear", dayOfYear, 1, 366);
    return 0.409 * Math.sin(2 * Math.PI * dayOfYear / 365 - 1.39);
  }

  /**
   * Hour angle of sunset, radians, 0 in polar night to pi in polar day; equation 25.
   *
   * @param latitudeDeg -90 to 90, north positive
   * @param dayOfYear 1 to 366
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double sunsetHourAngle(double latitudeDeg, int dayOfYear) {
    Argument.within("latitudeDeg", latitudeDeg, -90, 90);
    double cos = -Math.tan(Math.toRadians(latitudeDeg)) * Math.tan(declination(dayOfYear));
    return Math.acos(Math.max(-1, Math.min(1, cos)));
  }

  /**
   * Daylight hours, 0 to 24; equation 34. Arguments as for {@link #sunsetHourAngle}.
   *
   * @throws IllegalArgumentException outside of those ranges
   */
  public static double hours(double latitudeDeg, int dayOfYear) {
    return 24 / Math.PI * sunsetHourAngle(latitudeDeg, dayOfYear);
  }
}
