package dev.cupwarden.core.watering;

/**
 * For how long warm roots have stood in little air: the weather in which rot begins. Waterlogged
 * roots starve of oxygen the sooner the warmer they are, since they breathe faster (common
 * knowledge; the figures are our choice).
 *
 * <p>After each watering a fine mix holds little air for as long as it needs to dry. That is its
 * set-up, and no weather; only what lasts for half as long again is, and for a day at least.
 *
 * @param warmH hours of it at warm roots
 * @param needH hours that the cup needs at its own rate to dry out of it, from where it was
 *     wettest; 0 while there is air
 */
public record LowAir(double warmH, double needH) {
  /** Air enough. */
  public static final LowAir NONE = new LowAir(0.0, 0.0);

  /** Colder roots rot slowly: our choice. */
  public static final double WARM_C = 15.0;

  /** Our choice, as for {@link WetClock#WARN_AFTER_H}. */
  private static final double LEAST_H = 24.0;

  /** A rate is learned within a third, so that a cup may need half as long again. */
  private static final double TIMES_NEEDED = 1.5;

  /** So far back past the line it must be: no flicker. */
  private static final double BACK_BY = 0.01;

  /** Over a longer gap nobody knows what was: a weighing a day is none. */
  private static final double LONGEST_GAP_H = 30.0;

  /**
   * After a trusted look at the cup.
   *
   * @param hours since the look before
   * @param line depletion from which on there is air enough
   * @param rootC temperature of its roots, °C; NaN, not known, counts as cool
   * @param dryingPerH by how much its depletion usually grows in an hour
   */
  public LowAir look(double hours, double depletion, double line, double rootC, double dryingPerH) {
    boolean low = needH > 0.0;
    if (depletion >= line + (low ? BACK_BY : 0.0)) {
      return NONE;
    }
    boolean counts = low && hours <= LONGEST_GAP_H && rootC > WARM_C;
    double need = Math.max(line - depletion, BACK_BY) / dryingPerH;
    return new LowAir(counts ? warmH + hours : warmH, Math.max(needH, need));
  }

  /** Hours of it that are no more than the cup needs. */
  public double mostH() {
    return Math.max(LEAST_H, TIMES_NEEDED * needH);
  }

  /** Whether it has lasted for longer. */
  public boolean tooLong() {
    return warmH > mostH();
  }
}
