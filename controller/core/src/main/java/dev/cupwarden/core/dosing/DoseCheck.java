package dev.cupwarden.core.dosing;

import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;

/** The cup's own weight as the witness of a pass. */
public final class DoseCheck {
  /** A reading sooner than this may have caught the pass half way. */
  private static final Duration SOONEST = Duration.ofMinutes(1);

  /** A reading later than this says more of drying than of the pass. */
  static final Duration LATEST = Duration.ofMinutes(30);

  /** Less of a pass than this did not arrive. */
  public static final double SHORT_BELOW = 0.20;

  /** Less of a pass than this ran past the mix: bypass. */
  public static final double BYPASS_BELOW = 0.80;

  /** More of a pass than this was not the pump's alone. */
  public static final double OVER_ABOVE = 1.20;

  private DoseCheck() {}

  /** What the weight says of a pass. */
  public enum Verdict {
    ARRIVED,
    BYPASS,
    SHORT,
    OVER
  }

  /**
   * A verdict with its figures.
   *
   * @param riseG what the cup gained, its loss meanwhile added back
   */
  public record Finding(Verdict verdict, double riseG, double orderedMl) {}

  /** Whether a reading at that time may judge the pass. */
  public static boolean judges(PassOnTrial pass, Instant readAt) {
    Duration age = Duration.between(pass.at(), readAt);
    return age.compareTo(SOONEST) >= 0 && age.compareTo(LATEST) <= 0;
  }

  /** Whether no reading can judge the pass any more. */
  public static boolean lapsed(PassOnTrial pass, Instant now) {
    return Duration.between(pass.at(), now).compareTo(LATEST) > 0;
  }

  /**
   * Judges a pass by a gross weight read at a time for which {@link #judges} holds.
   *
   * <p>A rise is over only beyond the larger of a fifth and what the scale cannot tell apart.
   */
  public static Finding judge(PassOnTrial pass, Instant readAt, double massG) {
    double hours = Elapsed.hours(pass.at(), readAt);
    double riseG = massG - pass.massBeforeG() + pass.rateGPerH() * hours;
    double part = riseG / pass.orderedMl();
    double toleranceG = Math.max(3.0, 6.0 * pass.sdG());
    Verdict verdict;
    if (part < SHORT_BELOW) {
      verdict = Verdict.SHORT;
    } else if (part < BYPASS_BELOW) {
      verdict = Verdict.BYPASS;
    } else if (part > OVER_ABOVE && riseG > pass.orderedMl() + toleranceG) {
      verdict = Verdict.OVER;
    } else {
      verdict = Verdict.ARRIVED;
    }
    return new Finding(verdict, riseG, pass.orderedMl());
  }
}
