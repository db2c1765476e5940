package dev.cupwarden.host.store;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.PrivateFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import org.jdbi.v3.core.Handle;

/** Keeps the store small and quick: rolls up, lets go what is old, and gives room back. */
public final class StoreMaintenance {
  private final Store store;
  private final InstantSource clock;
  private final Retention retention;

  /**
   * How long things are kept; hourly extremes stay for good.
   *
   * @param readings single readings
   * @param tenMinutes their extremes of each ten minutes
   * @param events events, orders and receipts
   */
  public record Retention(Duration readings, Duration tenMinutes, Duration events) {
    public static final Retention USUAL =
        new Retention(Duration.ofDays(400), Duration.ofDays(1200), Duration.ofDays(1200));
  }

  public StoreMaintenance(Store store, InstantSource clock, Retention retention) {
    this.store = store;
    this.clock = clock;
    this.retention = retention;
  }

  /** Everything that is due, in short transactions. */
  public void run() {
    Instant now = clock.instant();
    Instant wholeFrom = hourAfter(now.minus(retention.readings()));
    store.rollups().rollUp(wholeFrom);
    for (long series : series()) {
      store.write(handle -> retire(handle, series, wholeFrom, now));
    }
    Instant eventsFrom = now.minus(retention.events());
    store.write(handle -> retireEvents(handle, eventsFrom));
    store.write(handle -> store.rejectedMessages().trim(handle));
  }

  /** Only whole hours go, so that an hour that is still rolled up has all its readings. */
  private static Instant hourAfter(Instant time) {
    long hourMs = Rollups.HOUR.toMillis();
    return Instant.ofEpochMilli(Math.floorDiv(time.toEpochMilli(), hourMs) * hourMs + hourMs);
  }

  private List<Long> series() {
    return store
        .jdbi()
        .withHandle(handle -> handle.createQuery("SELECT id FROM series").mapTo(Long.class).list());
  }

  private void retire(Handle handle, long series, Instant wholeFrom, Instant now) {
    handle.execute(
        "DELETE FROM readings WHERE series = ? AND at_ms < ?", series, wholeFrom.toEpochMilli());
    handle.execute(
        "DELETE FROM rollups WHERE series = ? AND step_ms = ? AND at_ms < ?",
        series,
        Rollups.TEN_MINUTES.toMillis(),
        now.minus(retention.tenMinutes()).toEpochMilli());
  }

  /** What lies beyond a mark stays, or the mark could never move over it. */
  private static void retireEvents(Handle handle, Instant before) {
    long beforeMs = before.toEpochMilli();
    for (String bench :
        handle.createQuery("SELECT bench FROM benches").mapTo(String.class).list()) {
      handle.execute(
          "DELETE FROM events WHERE bench = ? AND at_ms < ? AND (epoch = ? OR seq <="
              + " (SELECT k.seq FROM kept k WHERE k.bench = events.bench AND k.epoch ="
              + " events.epoch))",
          bench,
          beforeMs,
          Events.OWN_EPOCH);
      handle.execute("DELETE FROM orders WHERE bench = ? AND issued_ms < ?", bench, beforeMs);
      handle.execute("DELETE FROM receipts WHERE bench = ? AND at_ms < ?", bench, beforeMs);
    }
    handle.execute("DELETE FROM notices WHERE settled_ms < ?", beforeMs);
  }

  /** Gives room back to the disk; others wait meanwhile. */
  public void vacuum() {
    store.jdbi().useHandle(handle -> handle.execute("VACUUM"));
  }

  /**
   * Copies a SQLite store into one new file, while the host goes on.
   *
   * @throws HostException for another database, whose server has its own tools, or a file that is
   *     there already
   */
  public void backup(Database database, Path file) {
    if (database.file().isEmpty()) {
      throw new HostException("A PostgreSQL database is copied by pg_dump, not by this program.");
    }
    if (Files.exists(file)) {
      throw new HostException(file + " is there already; a backup never writes over another.");
    }
    try {
      PrivateFiles.file(file); // It holds what the store holds; SQLite takes an empty file.
    } catch (IOException refused) {
      throw new HostException("The file " + file + " cannot be made.", refused);
    }
    store.jdbi().useHandle(handle -> handle.execute("VACUUM INTO ?", file.toString()));
  }
}
