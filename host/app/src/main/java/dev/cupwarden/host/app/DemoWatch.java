package dev.cupwarden.host.app;

import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.WatchReplay;
import dev.cupwarden.app.journal.WatchedText;
import dev.cupwarden.host.HostException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** The demo's week of a watch, which is told once it is over, as {@code journal watched} does. */
final class DemoWatch {
  private static final Duration WEEK = Duration.ofDays(7);

  private final Path journal;
  private final Instant over;
  private final PrintWriter out;
  private boolean told;

  DemoWatch(Path journal, Instant begins, PrintWriter out) {
    this.journal = journal;
    this.over = begins.plus(WEEK);
    this.out = out;
  }

  /** To be called now and then. */
  void look(Instant now) {
    if (told || now.isBefore(over)) {
      return;
    }
    told = true;
    try (JournalExport export = JournalExport.open(journal)) {
      var cups = WatchReplay.of(export, Instant.MIN, Optional.empty()).values();
      out.println("A week was watched. What each cup would have had, and what the can gave:");
      WatchedText.print(cups, true, out);
      out.printf("While it is kept it can be read again: journal watched %s%n", journal);
      out.flush();
    } catch (JournalException failed) {
      throw new HostException("The week cannot be told: " + failed.getMessage(), failed);
    }
  }
}
