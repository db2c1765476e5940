package dev.cupwarden.core.estimate;

/**
 * How a cup's use answers to light: loss = drying power · (d + l · brightness), with d what mix and
 * shut leaves lose and l what leaves draw in full light, both learned of the cup by least squares
 * over the last days. So the amount of leaf is in l, and nobody has to enter it.
 *
 * <p>Brightness is L / (L + {@value #HALF_OPEN_UMOL}) of a light of L µmol/m²/s: pores of leaves
 * are half open at some tens of µmol (from memory; the figure is our choice).
 *
 * @param dark sum of the squares of drying power, fading, kPa²·h
 * @param both sum of its square times brightness, kPa²·h
 * @param lit sum of its square times the square of brightness, kPa²·h
 * @param lostDark sum of loss times drying power, g·kPa
 * @param lostLit sum of that times brightness, g·kPa
 * @param brightness as last known; NaN: never known
 */
record LightUse(
    double dark, double both, double lit, double lostDark, double lostLit, double brightness) {
  /** Nothing learned, nothing known. */
  static final LightUse NONE = new LightUse(0, 0, 0, 0, 0, Double.NaN);

  private static final double HALF_OPEN_UMOL = 80;
  private static final double MOST_UMOL = 5000;

  /** Long enough to hold some nights, short enough to follow growth (our choice). */
  private static final double FADE_H = 60;

  /** So much of light and of dark must have been seen before they are told apart, kPa²·h. */
  private static final double LEAST_SEEN = 1;

  /** A cup whose use rises more than so many times by light alone is not known to us. */
  private static final double MOST_TIMES = 20;

  /** With the light of now; what is not known stays as it was. */
  LightUse under(double lightUmol) {
    if (!(lightUmol >= 0 && lightUmol <= MOST_UMOL)) {
      return this;
    }
    double now = lightUmol / (lightUmol + HALF_OPEN_UMOL);
    return now == brightness ? this : new LightUse(dark, both, lit, lostDark, lostLit, now);
  }

  /** After hours of drying in which it lost so much. */
  LightUse add(double lostG, double hours, double driveKpa) {
    if (Double.isNaN(brightness) || !(hours > 0)) {
      return this;
    }
    double drive = driveKpa > 0 ? driveKpa : 1;
    double fade = Math.exp(-hours / FADE_H);
    double square = drive * drive * hours;
    return new LightUse(
        dark * fade + square,
        both * fade + square * brightness,
        lit * fade + square * brightness * brightness,
        lostDark * fade + lostG * drive,
        lostLit * fade + lostG * drive * brightness,
        brightness);
  }

  /** Part by which a rate in the light of before changes in this; 1 where nothing is known. */
  double against(LightUse before) {
    if (brightness == before.brightness || Double.isNaN(before.brightness)) {
      return 1;
    }
    double spread = dark * lit - both * both;
    if (dark - both < LEAST_SEEN || both < LEAST_SEEN || !(spread > 0)) {
      return 1;
    }
    double draws = Math.max(0, (lostLit * dark - lostDark * both) / spread);
    double rests = Math.max(draws / MOST_TIMES, (lostDark - draws * both) / dark);
    return rests > 0 ? (rests + draws * brightness) / (rests + draws * before.brightness) : 1;
  }
}
