package dev.cupwarden.app.advise;

import dev.cupwarden.core.setup.Bench;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.Optional;

/** A session that answers programs, at a bench on UTC. */
final class JsonSession {
  private JsonSession() {}

  /**
   * @param csv whether it takes its input for a table whatever it looks like
   */
  static AdviseSession of(Bench bench, Adviser adviser, boolean brief, boolean csv) {
    SpreadsheetTime times = new SpreadsheetTime(ZoneOffset.UTC, Optional.empty(), LocalTime.NOON);
    AdviseSession session =
        new AdviseSession(
            bench,
            adviser,
            new AdviceJson(),
            brief,
            () -> new CsvLines(times, bench.tanks().keySet(), aside -> {}));
    if (csv) {
      session.expectTable();
    }
    return session;
  }
}
