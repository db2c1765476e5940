package dev.cupwarden.core.dosing;

import java.time.Duration;
import java.time.Instant;

/**
 * How a pump that brought nothing to several cups is tried again: a day after it was latched, and a
 * day after each trial that failed, one pass to the driest cup, whose weight judges it. Another cup
 * than the last time where there is one: that one's own tube may be shut. Times are our choice.
 *
 * @param cup of the last trial; null before the first
 * @param begunAt of one that its cup's weight has not judged; null where there is none
 * @param failedAt when the last one failed; null if none did
 */
public record PumpTrial(String cup, Instant begunAt, Instant failedAt) {
  public static final PumpTrial NONE = new PumpTrial(null, null, null);

  /** Code of the latch that a trial may end. */
  public static final String ENDS = "dose-short";

  private static final Duration EVERY = Duration.ofHours(24);

  /** Whether a trial may begin, with that latch of the pump; null: none stands. */
  public boolean due(Latch pump, Instant at) {
    if (pump == null || !pump.code().equals(ENDS) || begunAt != null) {
      return false;
    }
    Instant from = failedAt == null ? pump.since() : failedAt;
    return Duration.between(from, at).compareTo(EVERY) >= 0;
  }

  /** After its pass was put out. */
  public PumpTrial begun(String cupTried, Instant at) {
    return new PumpTrial(cupTried, at, failedAt);
  }

  /** Whether that cup's weight now judges it. */
  public boolean judgedBy(String name) {
    return begunAt != null && name.equals(cup);
  }

  /** Whether no reading can judge it any more. */
  public boolean lapsed(Instant at) {
    return begunAt != null && Duration.between(begunAt, at).compareTo(DoseCheck.LATEST) > 0;
  }

  /** After nothing was seen to arrive. */
  public PumpTrial failed(Instant at) {
    return new PumpTrial(cup, null, at);
  }
}
