package dev.cupwarden.app.loop;

import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.Dose;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What the board says is wrong with itself: told once in the log when it begins, changes and ends.
 * An output that does not answer and a pass that failed are alerts; what a silent sensor means is
 * judged in the core.
 */
final class BoardFaults {
  private static final Logger log = LoggerFactory.getLogger(BoardFaults.class);

  private final OwnAlerts alerts;
  private Map<String, String> known = Map.of();
  private boolean failedNow;
  private boolean failedLast;

  BoardFaults(OwnAlerts alerts) {
    this.alerts = alerts;
  }

  /**
   * Before each tick's decision.
   *
   * @return whether the board could not do as it was told, now or since the tick before
   */
  boolean look(Instant at, BoardReadings read) {
    Map<String, String> faults = read.faults();
    faults.forEach(
        (part, sentence) -> {
          if (!sentence.equals(known.get(part))) {
            log.warn("{}: {}", part, sentence);
          }
        });
    known.keySet().stream()
        .filter(part -> !faults.containsKey(part))
        .forEach(part -> log.info("{}: works again", part));
    known = Map.copyOf(faults);
    boolean pump = faults.containsKey(BoardReadings.PUMP);
    boolean outputs = faults.containsKey(BoardReadings.OUTPUTS);
    // A pass that water ended is told as that water.
    failedLast &= !read.leak() && !faults.containsKey(BoardReadings.LEAK);
    tell(AlertCode.PUMP_RUNNING_ON, at, pump, faults.get(BoardReadings.PUMP));
    tell(
        AlertCode.BOARD_FAULT,
        at,
        !pump && (outputs || failedLast),
        outputs
            ? faults.get(BoardReadings.OUTPUTS)
            : "A pass failed: look at the controller's log, the outputs and their supply. It is over"
                + " when a pass is given.");
    boolean faulty = pump || outputs || failedNow;
    failedNow = false;
    return faulty;
  }

  private void tell(AlertCode code, Instant at, boolean so, String sentence) {
    if (so) {
      alerts.raise(code, at, 1, 0, sentence);
    } else {
      alerts.clear(code, at, 0);
    }
  }

  /** After passes were given, or tried. */
  void gave(List<Dose> doses) {
    if (!doses.isEmpty()) {
      failedNow = doses.stream().anyMatch(dose -> !dose.outcome().equals("given"));
      failedLast = failedNow;
    }
  }
}
