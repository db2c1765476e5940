package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.Journal;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells of a disk that is nearly full while there is still room to tell it. */
final class StoreWatch {
  /** Our choice: months of a journal's growth, and far more than a tick needs. */
  static final double LEAST_FREE_MB = 64;

  private static final double FREE_AGAIN_MB = 80;
  private static final String CODE = "store-full";
  private static final Logger log = LoggerFactory.getLogger(StoreWatch.class);

  private final Path file;

  StoreWatch(Journal journal) {
    this.file = journal.file().toAbsolutePath();
  }

  void look(Instant at, OwnAlerts alerts) {
    double freeMb;
    try {
      freeMb = Files.getFileStore(file).getUsableSpace() / 1e6;
    } catch (IOException e) {
      log.warn("The free space beside {} cannot be read: {}", file, e.getMessage());
      return;
    }
    if (freeMb < LEAST_FREE_MB) {
      alerts.raise(
          CODE,
          at,
          freeMb,
          LEAST_FREE_MB,
          "Free some space on the controller's disk; when it is full nothing is watered.");
    } else if (freeMb > FREE_AGAIN_MB) {
      alerts.clear(CODE, freeMb);
    }
  }
}
