package dev.cupwarden.app.loop;

import java.time.Instant;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What the board says is wrong with itself: told once in the log when it begins, changes and ends.
 * An output that does not switch off is an alert; what a silent sensor means is judged in the core.
 */
final class BoardFaults {
  private static final String OUTPUTS = "outputs";
  private static final String CODE = "pump-running-on";
  private static final Logger log = LoggerFactory.getLogger(BoardFaults.class);

  private final OwnAlerts alerts;
  private Map<String, String> known = Map.of();

  BoardFaults(OwnAlerts alerts) {
    this.alerts = alerts;
  }

  void look(Instant at, Map<String, String> faults) {
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
    if (faults.containsKey(OUTPUTS)) {
      alerts.raise(CODE, at, 1, 0, faults.get(OUTPUTS));
    } else {
      alerts.clear(CODE, at, 0);
    }
  }
}
