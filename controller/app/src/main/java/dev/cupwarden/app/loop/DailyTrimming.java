package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalRetention;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;

/**
 * Lets the journal trim itself once a day, at the first tick after midnight of the bench's place,
 * and empty its log once an hour.
 */
final class DailyTrimming {
  /** What a flipped bit in the log may cost. Our choice. */
  private static final Duration HOUR = Duration.ofHours(1);

  private final BenchLoop.Parts parts;
  private final ZoneId zone;
  private LocalDate today;
  private Instant logEmptied;

  DailyTrimming(BenchLoop.Parts parts) {
    this.parts = parts;
    this.zone = parts.bench().place().map(Place::zone).orElse(ZoneOffset.UTC);
  }

  void afterTick(Instant at, String benchText, BenchState state) throws JournalException {
    LocalDate date = at.atZone(zone).toLocalDate();
    if (today != null && date.isAfter(today)) {
      parts
          .journal()
          .endDay(new Journal.Start(at, benchText, state, parts.version()), JournalRetention.USUAL);
    }
    today = date;
    boolean hourOver = logEmptied == null || Duration.between(logEmptied, at).compareTo(HOUR) >= 0;
    if (hourOver && parts.journal().checkpoint()) {
      logEmptied = at;
    }
  }
}
