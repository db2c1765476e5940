package dev.cupwarden.core.estimate;

import dev.cupwarden.core.climate.DryingPower;

/**
 * What drives drying and what warms the scale, as last known.
 *
 * <p>Loss is taken as proportional to vapour pressure deficit plus a small constant: what still
 * evaporates by warmth from below and light in nearly saturated air (project choice).
 *
 * @param driveKpa VPD and that constant, kPa; NaN: never known
 * @param scaleTempC temperature that the scale has taken on, °C; NaN: never known
 */
record Weather(double driveKpa, double scaleTempC) {
  static final Weather UNKNOWN = new Weather(Double.NaN, Double.NaN);

  private static final double GREATEST_VPD_KPA = 12;

  /** A load cell under a cup follows the room within about three quarters of an hour (guess). */
  private static final double SCALE_LAG_H = 0.75;

  /** After a look {@code hours} later; what that look did not know stays as it was. */
  Weather next(double vpdKpa, double tempC, double hours) {
    double drive = vpdKpa >= 0 && vpdKpa <= GREATEST_VPD_KPA ? DryingPower.kpa(vpdKpa) : driveKpa;
    double scale = scaleTempC;
    if (tempC > -40 && tempC < 85) {
      scale =
          Double.isNaN(scale)
              ? tempC
              : scale + (tempC - scale) * (1 - Math.exp(-hours / SCALE_LAG_H));
    }
    return new Weather(drive, scale);
  }

  /** Part by which a rate of the weather before changes in this. */
  double against(Weather before) {
    double ratio = driveKpa / before.driveKpa;
    return Double.isNaN(ratio) ? 1 : Math.max(0.2, Math.min(5, ratio));
  }

  /** How much warmer the scale is than where it is taken to be right, °C; 0 if unknown. */
  double warmC() {
    return Double.isNaN(scaleTempC) ? 0 : scaleTempC - LoadFilter.REFERENCE_TEMP_C;
  }
}
