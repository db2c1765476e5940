package dev.cupwarden.app.journal;

import java.time.Duration;

/**
 * How much a journal may grow.
 *
 * @param observations how long what was seen stays, for replay
 * @param passes how long what was given stays; longer than any label interval
 * @param packs the most packs of readings that wait for a broker; the oldest are thinned first
 * @param events the most events that wait for a host; doses and alerts go last
 */
public record JournalRetention(Duration observations, Duration passes, int packs, int events) {
  /** Three weeks to replay, a winter of doses, weeks without a network. */
  public static final JournalRetention USUAL =
      new JournalRetention(Duration.ofDays(21), Duration.ofDays(400), 50_000, 100_000);
}
