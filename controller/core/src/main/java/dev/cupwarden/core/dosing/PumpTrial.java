package dev.cupwarden.core.dosing;

import dev.cupwarden.core.alerts.AlertCode;
import java.time.Duration;
import java.time.Instant;
import java.util.Set;

/**
 * How a pump is tried again that brought nothing to several cups, or whose water went astray: a day
 * after it was latched, and a day after each trial that failed, one pass to the driest cup, whose
 * weight judges it. Another cup than the last time where there is one: that one's own tube may be
 * shut. So no witness that was wrong lets a whole bench die, and a valve that does stand open gets
 * a part of one pass a day. Times are our choice.
 *
 * @param cup of the last trial; null before the first
 * @param begunAt of one that its cup's weight has not judged; null where there is none
 * @param failedAt when the last one failed; null if none did
 */
public record PumpTrial(String cup, Instant begunAt, Instant failedAt) {
  public static final PumpTrial NONE = new PumpTrial(null, null, null);

  /** A pump that runs on by itself waits for a person: its output, not a witness, is in doubt. */
  private static final Set<AlertCode> ENDED = Set.of(AlertCode.DOSE_SHORT, AlertCode.VALVE_LEAKING);

  private static final Duration EVERY = Duration.ofHours(24);

  /** Whether a trial may end a latch of the pump. */
  public static boolean mayEnd(Latch pump) {
    return ENDED.contains(pump.code());
  }

  /**
   * Whether a pass that its cup's weight has judged shows that the pump may go on: where nothing
   * came, that something came; where water went astray, that all of it came, and that none was seen
   * elsewhere meanwhile.
   *
   * @param pump why it is latched
   * @param pumpPart of what is ordered that the pump truly gives
   */
  public boolean passed(Latch pump, DoseCheck.Finding finding, double pumpPart) {
    if (!pump.is(AlertCode.VALVE_LEAKING)) {
      return finding.verdict() != DoseCheck.Verdict.SHORT;
    }
    double wholeG = DoseCheck.BYPASS_BELOW * pumpPart * finding.orderedMl();
    return !pump.since().isAfter(begunAt)
        && finding.verdict() != DoseCheck.Verdict.OVER
        && finding.riseG() >= wholeG;
  }

  /** Whether a trial may begin, with that latch of the pump; null: none stands. */
  public boolean due(Latch pump, Instant at) {
    if (pump == null || !mayEnd(pump) || begunAt != null) {
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
