package dev.cupwarden.host.store;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.PreparedBatch;

/**
 * Readings of each ten minutes and of each hour by their least and greatest value, each at its own
 * time: long ranges are drawn from them without losing a dose or a cup lifted.
 */
public final class Rollups {
  static final Duration TEN_MINUTES = Duration.ofMinutes(10);
  static final Duration HOUR = Duration.ofHours(1);
  private static final int HOURS_AT_ONCE = 200;
  private final Jdbi jdbi;

  Rollups(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  private record Due(long series, long atMs) {}

  private record Extremes(double least, long leastMs, double greatest, long greatestMs) {
    static Extremes of(long atMs, double value) {
      return new Extremes(value, atMs, value, atMs);
    }

    static Extremes both(Extremes one, Extremes other) {
      boolean lower = other.least < one.least;
      boolean higher = other.greatest > one.greatest;
      return new Extremes(
          lower ? other.least : one.least,
          lower ? other.leastMs : one.leastMs,
          higher ? other.greatest : one.greatest,
          higher ? other.greatestMs : one.greatestMs);
    }
  }

  /**
   * Rolls up every hour whose readings have changed, in short transactions.
   *
   * @param wholeFrom from here on all readings are there; an older hour that is rolled up already
   *     stays as it is, since a late reading alone does not tell its extremes
   * @return how many hours
   */
  public int rollUp(Instant wholeFrom) {
    int all = 0;
    int done;
    do {
      done = jdbi.inTransaction(handle -> rollUpSome(handle, wholeFrom.toEpochMilli()));
      all += done;
    } while (done == HOURS_AT_ONCE);
    return all;
  }

  private static int rollUpSome(Handle handle, long wholeFromMs) {
    List<Due> due =
        handle
            .createQuery("SELECT series, at_ms FROM unrolled ORDER BY series, at_ms LIMIT ?")
            .bind(0, HOURS_AT_ONCE)
            .map((rows, context) -> new Due(rows.getLong(1), rows.getLong(2)))
            .list();
    for (Due each : due) {
      // First, so that a reading that comes meanwhile marks the hour again.
      handle.execute(
          "DELETE FROM unrolled WHERE series = ? AND at_ms = ?", each.series(), each.atMs());
      put(handle, each, TEN_MINUTES, each.atMs() >= wholeFromMs);
      put(handle, each, HOUR, each.atMs() >= wholeFromMs);
    }
    return due.size();
  }

  private static void put(Handle handle, Due hour, Duration step, boolean replace) {
    Map<Long, Extremes> parts = new TreeMap<>();
    handle
        .createQuery(
            "SELECT at_ms, value FROM readings WHERE series = ? AND at_ms >= ? AND at_ms < ?")
        .bind(0, hour.series())
        .bind(1, hour.atMs())
        .bind(2, hour.atMs() + HOUR.toMillis())
        .scanResultSet(
            (supplier, context) -> {
              try (var rows = supplier.get()) {
                while (rows.next()) {
                  long atMs = rows.getLong(1);
                  parts.merge(
                      atMs - Math.floorMod(atMs, step.toMillis()),
                      Extremes.of(atMs, rows.getDouble(2)),
                      Extremes::both);
                }
              }
              return null;
            });
    String onConflict =
        replace
            ? " ON CONFLICT (series, step_ms, at_ms) DO UPDATE SET least = excluded.least,"
                + " least_ms = excluded.least_ms, greatest = excluded.greatest,"
                + " greatest_ms = excluded.greatest_ms"
            : " ON CONFLICT DO NOTHING";
    try (PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO rollups (series, step_ms, at_ms, least, least_ms, greatest, greatest_ms)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?)"
                + onConflict)) {
      parts.forEach(
          (atMs, part) ->
              batch.add(
                  hour.series(),
                  step.toMillis(),
                  atMs,
                  part.least(),
                  part.leastMs(),
                  part.greatest(),
                  part.greatestMs()));
      if (batch.size() > 0) {
        batch.execute();
      }
    }
  }

  /** The start of the newest part of a series within a span, or its beginning if there is none. */
  static long newest(Handle handle, long series, Duration step, long fromMs, long toMs) {
    return handle
        .createQuery(
            "SELECT COALESCE(MAX(at_ms), ?) FROM rollups WHERE series = ? AND step_ms = ?"
                + " AND at_ms >= ? AND at_ms < ?")
        .bind(0, fromMs)
        .bind(1, series)
        .bind(2, step.toMillis())
        .bind(3, fromMs)
        .bind(4, toMs)
        .mapTo(Long.class)
        .one();
  }

  /** Adds the extremes of a span, in the order of time. */
  static void addTo(
      Curve.Builder curve, Handle handle, long series, Duration step, long fromMs, long toMs) {
    handle
        .createQuery(
            "SELECT least_ms, least, greatest_ms, greatest FROM rollups WHERE series = ?"
                + " AND step_ms = ? AND at_ms >= ? AND at_ms < ? ORDER BY at_ms")
        .bind(0, series)
        .bind(1, step.toMillis())
        .bind(2, fromMs)
        .bind(3, toMs)
        .scanResultSet(
            (supplier, context) -> {
              try (var rows = supplier.get()) {
                while (rows.next()) {
                  add(
                      curve,
                      rows.getLong(1),
                      rows.getDouble(2),
                      rows.getLong(3),
                      rows.getDouble(4));
                }
              }
              return null;
            });
  }

  private static void add(
      Curve.Builder curve, long leastMs, double least, long greatestMs, double greatest) {
    if (leastMs == greatestMs) {
      curve.add(leastMs, least);
    } else if (leastMs < greatestMs) {
      curve.add(leastMs, least);
      curve.add(greatestMs, greatest);
    } else {
      curve.add(greatestMs, greatest);
      curve.add(leastMs, least);
    }
  }
}
