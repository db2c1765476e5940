package dev.cupwarden.core.estimate;

/**
 * The Hampel identifier: a reading farther from the centre of its neighbourhood than so many robust
 * standard deviations does not belong to it (F. R. Hampel 1974, J. Am. Stat. Assoc. 69:383).
 *
 * <p>The centre is the forecast rather than a median of past readings, since the cup dries between
 * them; the scale is the standard deviation that the filter expects of a reading.
 */
final class HampelGate {
  /** Beyond this a reading is no member of the series. */
  private static final double OUTSIDE_SDS = 5;

  /** Nothing lighter is a hand watering or worth a step (project choice): half a least pass. */
  private static final double LEAST_STEP_G = 2;

  /** Beyond this a member pulls no harder than at it. */
  private static final double CLIP_SDS = 3;

  private HampelGate() {}

  /** How far a reading may be from the forecast and still belong, g. */
  static double limitG(double readingVar) {
    return Math.max(LEAST_STEP_G, OUTSIDE_SDS * Math.sqrt(readingVar));
  }

  /** The surprise with its pull limited, g. */
  static double clip(double surpriseG, double readingVar) {
    double most = CLIP_SDS * Math.sqrt(readingVar);
    return Math.max(-most, Math.min(most, surpriseG));
  }
}
