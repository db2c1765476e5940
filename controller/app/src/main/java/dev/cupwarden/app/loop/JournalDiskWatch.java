package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.core.alerts.AlertCode;
import java.nio.file.Path;
import java.time.Instant;

/**
 * Tells of a disk that is nearly full while there is still room to tell it, and of a journal that
 * cannot be written once that can be told.
 */
final class JournalDiskWatch {
  /** Our choice: months of a journal's growth, and far more than a tick needs. */
  private static final double LEAST_FREE_MB = 64;

  private static final double FREE_AGAIN_MB = 80;

  private final Path file;
  private final OwnAlerts alerts;
  private boolean failing;

  JournalDiskWatch(Journal journal, OwnAlerts alerts) {
    this.file = journal.file().toAbsolutePath();
    this.alerts = alerts;
  }

  /** Before each tick. */
  void look(Instant at) {
    // Not by a FileStore: that asks a table of mounts, which a container may not have.
    double freeMb = file.toFile().getUsableSpace() / 1e6;
    if (freeMb < LEAST_FREE_MB) {
      alerts.raise(
          AlertCode.STORE_FULL,
          at,
          freeMb,
          LEAST_FREE_MB,
          "Free some space on the controller's disk; when it is full nothing is watered.");
    } else if (freeMb > FREE_AGAIN_MB && !failing) {
      alerts.clear(AlertCode.STORE_FULL, at, freeMb);
    }
  }

  /** The journal cannot be used. */
  void failed(Instant at, String whatToDo) {
    failing = true;
    alerts.raise(AlertCode.STORE_FULL, at, 1, 0, whatToDo);
  }

  /** The journal was written. */
  void worked() {
    failing = false;
  }
}
