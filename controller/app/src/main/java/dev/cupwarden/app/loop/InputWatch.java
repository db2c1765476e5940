package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.FailedStarts;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.SetAside;
import dev.cupwarden.core.alerts.AlertCode;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Tells of orders that were set aside because nothing could be done with them in hand, until a
 * person has deleted their file; and sets such orders aside that ticks, rather than starts, fail
 * on.
 */
final class InputWatch {
  private static final Logger log = LoggerFactory.getLogger(InputWatch.class);

  private final Journal journal;
  private final OwnAlerts alerts;
  private int failed;

  InputWatch(Journal journal, OwnAlerts alerts) {
    this.journal = journal;
    this.alerts = alerts;
  }

  /** Before each tick. */
  void look(Instant at) {
    List<Path> files = SetAside.beside(journal.file());
    if (files.isEmpty()) {
      alerts.clear(AlertCode.INPUT_SET_ASIDE, at, 0);
    } else {
      alerts.raise(
          AlertCode.INPUT_SET_ASIDE,
          at,
          files.size(),
          0,
          "Look at the orders in "
              + files.get(0)
              + ": the controller failed three times with them in hand and goes on without them;"
              + " then delete the file.");
    }
  }

  /** A tick failed that had orders in hand, or none. */
  void tickFailed(Instant at, boolean withOrders) {
    failed = withOrders ? failed + 1 : 0;
    if (failed >= FailedStarts.MOST) {
      failed = 0;
      try {
        journal.setAside(at).ifPresent(to -> log.error("Orders were set aside in {}", to));
      } catch (JournalException e) {
        log.error("{}", e.getMessage());
      }
    }
  }

  /** A tick was finished. */
  void tickFinished() {
    failed = 0;
  }
}
