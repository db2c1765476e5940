package dev.cupwarden.core.estimate;

import java.time.Instant;
import java.util.Optional;

/**
 * What a cup's use of water says of its roots, compared with its own past and with its neighbours.
 *
 * <p>Once a day the cup's use per unit of drying power is divided by the median of its neighbours';
 * what weather, season and light do to all cups falls out. The ratio is followed quickly (over some
 * two days) and slowly (over a fortnight). A quick one well above the slow one means that the
 * cutting draws more than it did; well below it, while the mix is wet, that it draws less although
 * it has water. This is what is seen, not what it is: a look is asked for, nothing is decided.
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

  /** Use must fall to this part of its own past, while wet, to be a bad sign (project choice). */
  public static final double SUSPECT_AT = 0.65;

  private static final int LEAST_DAYS = 6;
  private static final double QUICK_DAYS = 2;
  private static final double SLOW_DAYS = 14;
  private static final double GREATEST_RATIO = 20;

  /** What was seen. */
  public enum Kind {
    LOOK_AT_ROOTS("look-at-roots"),
    ROT_SUSPECTED("rot-suspected");

    private final String code;

    Kind(String code) {
      this.code = code;
    }

    /** Name of the alert. */
    public String code() {
      return code;
    }
  }

  /**
   * A sign and its figures.
   *
   * @param ratio use now as a multiple of what its own past and its neighbours lead to expect
   * @param threshold that it passed
   * @param words what was seen, as told to a person
   */
  public record Sign(Kind kind, double ratio, double threshold, String words) {}

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

  /**
   * The sign to be told, if any.
   *
   * @param wet whether the mix has been above the refill line lately: a dry cup uses less anyway
   */
  public Optional<Sign> sign(boolean wet) {
    double ratio = ratio();
    if (days < LEAST_DAYS) {
      return Optional.empty();
    }
    if (ratio >= LOOK_AT) {
      return Optional.of(
          new Sign(Kind.LOOK_AT_ROOTS, ratio, LOOK_AT, words("uses more than before", ratio)));
    }
    if (ratio <= SUSPECT_AT && wet) {
      return Optional.of(
          new Sign(
              Kind.ROT_SUSPECTED,
              ratio,
              SUSPECT_AT,
              words("uses less than expected while wet", ratio)));
    }
    return Optional.empty();
  }

  private static String words(String seen, double ratio) {
    return "%s: %d %% of what its past and its neighbours lead to expect"
        .formatted(seen, Math.round(ratio * 100));
  }
}
