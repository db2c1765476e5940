package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * What a cup's use of water says of its roots, compared with its own past and with its neighbours.
 *
 * <p>Once a day the cup's use per unit of drying power is divided by the median of its neighbours';
 * what weather, season and light do to all cups falls out. The ratio is followed quickly (over some
 * two days) and slowly (over a fortnight). A quick one well above the slow one means that the
 * cutting draws more than it did: a look is asked for, nothing is decided. Of one below it nothing
 * is told: too much besides failing roots makes a cutting draw less.
 *
 * @param at last day taken in; null: none
 * @param days taken in
 * @param quick mean of the logarithm of the ratio over the last days
 * @param slow likewise, long
 */
public record RootSignal(Instant at, int days, double quick, double slow) {
  /** No day taken in. */
  public static final RootSignal NONE = new RootSignal(null, 0, 0, 0);

  /** Use must rise to this multiple of its own past to be worth a look (project choice). */
  public static final double LOOK_AT = 1.4;

  private static final int LEAST_DAYS = 6;
  private static final double QUICK_DAYS = 2;
  private static final double SLOW_DAYS = 14;
  private static final double GREATEST_RATIO = 20;

  /**
   * After one more day.
   *
   * @param now a day or so after the last time
   * @param useGPerH of the cup in air of some VPD, g/h, above 0
   * @param neighboursGPerH median of the other cups' use in the same air, g/h, above 0; with no
   *     neighbours, NaN: the cup is compared with its own past alone
   */
  public RootSignal day(Instant now, double useGPerH, double neighboursGPerH) {
    double by = Double.isNaN(neighboursGPerH) ? 1 : neighboursGPerH;
    if (!(useGPerH > 0 && by > 0)) {
      return this;
    }
    double ratio = Math.max(1 / GREATEST_RATIO, Math.min(GREATEST_RATIO, useGPerH / by));
    double log = Math.log(ratio);
    if (days == 0) {
      return new RootSignal(now, 1, log, log);
    }
    // The first days are a plain mean: a fading one would cling to the first.
    double quickStep = Math.max(1.0 / (days + 1), 1 - Math.exp(-1 / QUICK_DAYS));
    double slowStep = Math.max(1.0 / (days + 1), 1 - Math.exp(-1 / SLOW_DAYS));
    return new RootSignal(
        now, days + 1, quick + quickStep * (log - quick), slow + slowStep * (log - slow));
  }

  /** Use now against what its own past and its neighbours lead to expect; 1: as expected. */
  public double ratio() {
    return Math.exp(quick - slow);
  }

  /** Whether it draws so much more than expected that its roots are worth a look. */
  public boolean draws() {
    return days >= LEAST_DAYS && ratio() >= LOOK_AT;
  }
}
