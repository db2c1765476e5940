package dev.cupwarden.host.store;

import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jdbi.v3.core.statement.UnableToExecuteStatementException;

/** Measured values; (bench, name, time) names each once. */
public final class Readings {
  private static final int FETCH_ROWS = 5_000;
  private static final int ROWS_AT_ONCE = 1_000;
  private static final Duration RAW_UP_TO = Duration.ofDays(8);
  private static final Duration TEN_MINUTES_UP_TO = Duration.ofDays(31);
  private final Jdbi jdbi;
  private final Map<Series, Long> known = new ConcurrentHashMap<>();

  Readings(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * One value.
   *
   * @param name as in the pack: {@code A1/mass}
   * @param unit as in the pack; may be null
   */
  public record Reading(String bench, String name, String unit, Instant at, double value) {
    private static final Comparator<Reading> ORDER =
        Comparator.comparing(Reading::bench)
            .thenComparing(Reading::name)
            .thenComparing(Reading::at);
  }

  private record Series(String bench, String name) {}

  /**
   * Stores what is not there yet; the first value of a key stays. In the order of the keys, so that
   * two hosts with the same values never wait for each other.
   */
  public void insert(Handle handle, List<Reading> readings) {
    if (readings.isEmpty()) {
      return;
    }
    // Only what is committed may go into the shared map, so new series are looked up in this one.
    Map<Series, Long> met = new HashMap<>();
    Set<Hour> hours = new LinkedHashSet<>();
    int waiting = 0;
    // Without Jdbi between: it makes several objects of each value, and here come tens of
    // thousands.
    try (PreparedStatement batch =
        handle
            .getConnection()
            .prepareStatement(
                "INSERT INTO readings (series, at_ms, value) VALUES (?, ?, ?)"
                    + " ON CONFLICT DO NOTHING")) {
      for (Reading each : readings.stream().sorted(Reading.ORDER).toList()) {
        long series = seriesOf(handle, each, met);
        long atMs = each.at().toEpochMilli();
        batch.setLong(1, series);
        batch.setLong(2, atMs);
        batch.setDouble(3, each.value());
        batch.addBatch();
        if (++waiting == ROWS_AT_ONCE) {
          batch.executeBatch();
          waiting = 0;
        }
        hours.add(new Hour(series, atMs - Math.floorMod(atMs, Rollups.HOUR.toMillis())));
      }
      batch.executeBatch();
    } catch (SQLException refused) {
      throw new UnableToExecuteStatementException(refused, null);
    }
    markUnrolled(handle, hours);
  }

  private static void markUnrolled(Handle handle, Set<Hour> hours) {
    try (PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO unrolled (series, at_ms) VALUES (?, ?) ON CONFLICT DO NOTHING")) {
      hours.forEach(hour -> batch.add(hour.series(), hour.atMs()));
      batch.execute();
    }
  }

  private record Hour(long series, long atMs) {}

  private long seriesOf(Handle handle, Reading reading, Map<Series, Long> met) {
    Series series = new Series(reading.bench(), reading.name());
    Long id = known.get(series);
    return id != null ? id : met.computeIfAbsent(series, each -> define(handle, each, reading));
  }

  private static long define(Handle handle, Series series, Reading reading) {
    Optional<Long> found = find(handle, series);
    while (found.isEmpty()) {
      // Two hosts may choose the same number at once: then one of them inserts nothing and looks
      // again.
      handle.execute(
          "INSERT INTO series (id, bench, name, unit)"
              + " SELECT COALESCE(MAX(id), 0) + 1, ?, ?, ? FROM series WHERE true"
              + " ON CONFLICT DO NOTHING",
          series.bench(),
          series.name(),
          reading.unit());
      found = find(handle, series);
    }
    return found.get();
  }

  private static Optional<Long> find(Handle handle, Series series) {
    return handle
        .createQuery("SELECT id FROM series WHERE bench = ? AND name = ?")
        .bind(0, series.bench())
        .bind(1, series.name())
        .mapTo(Long.class)
        .findOne();
  }

  /** To be called once a transaction that used {@link #insert} has been committed. */
  public void remember(List<Reading> committed) {
    for (Reading each : committed) {
      Series series = new Series(each.bench(), each.name());
      if (!known.containsKey(series)) {
        jdbi.withHandle(handle -> find(handle, series)).ifPresent(id -> known.put(series, id));
      }
    }
  }

  /** The time of the oldest value, if any. */
  public Optional<Instant> oldest(String bench, String name) {
    return end(bench, name, "ASC");
  }

  /** The time of the newest value, if any. */
  public Optional<Instant> newest(String bench, String name) {
    return end(bench, name, "DESC");
  }

  /** By the series' number: a join lets the planner read all of the series in place of one row. */
  private Optional<Instant> end(String bench, String name, String direction) {
    return jdbi.withHandle(
        handle ->
            find(handle, new Series(bench, name))
                .flatMap(
                    series ->
                        handle
                            .createQuery(
                                "SELECT at_ms FROM readings WHERE series = ? ORDER BY at_ms "
                                    + direction
                                    + " LIMIT 1")
                            .bind(0, series)
                            .mapTo(Long.class)
                            .findOne()
                            .map(Instant::ofEpochMilli)));
  }

  /** Values from (inclusive) to (exclusive), in the order of time. */
  public Curve between(String bench, String name, Instant from, Instant to) {
    Curve.Builder curve = new Curve.Builder();
    jdbi.useHandle(
        handle -> {
          Optional<Long> id = find(handle, new Series(bench, name));
          if (id.isPresent()) {
            addTo(curve, handle, id.get(), from.toEpochMilli(), to.toEpochMilli());
          }
        });
    return curve.build();
  }

  private static void addTo(
      Curve.Builder curve, Handle handle, long series, long fromMs, long toMs) {
    handle
        .createQuery(
            "SELECT at_ms, value FROM readings"
                + " WHERE series = ? AND at_ms >= ? AND at_ms < ? ORDER BY at_ms")
        .bind(0, series)
        .bind(1, fromMs)
        .bind(2, toMs)
        .setFetchSize(FETCH_ROWS)
        .scanResultSet(
            (supplier, context) -> {
              try (var rows = supplier.get()) {
                while (rows.next()) {
                  curve.add(rows.getLong(1), rows.getDouble(2));
                }
              }
              return null;
            });
  }

  /**
   * For a chart: short spans as they were read, longer ones by the extremes of each ten minutes or
   * hour, and the newest part, which is not rolled up yet, as it was read.
   */
  public Curve overview(String bench, String name, Instant from, Instant to) {
    Duration span = Duration.between(from, to);
    if (span.compareTo(RAW_UP_TO) <= 0) {
      Curve raw = between(bench, name, from, to);
      // Where single readings have been let go, the ten minutes are still there.
      return raw.size() > 0 ? raw : rolled(bench, name, from, to, Rollups.TEN_MINUTES);
    }
    boolean fine = span.compareTo(TEN_MINUTES_UP_TO) <= 0;
    return rolled(bench, name, from, to, fine ? Rollups.TEN_MINUTES : Rollups.HOUR);
  }

  private Curve rolled(String bench, String name, Instant from, Instant to, Duration step) {
    Curve.Builder curve = new Curve.Builder();
    long fromMs = from.toEpochMilli();
    long toMs = to.toEpochMilli();
    jdbi.useHandle(
        handle -> {
          Optional<Long> id = find(handle, new Series(bench, name));
          if (id.isPresent()) {
            long newest = Rollups.newest(handle, id.get(), step, fromMs, toMs);
            Rollups.addTo(curve, handle, id.get(), step, fromMs, newest);
            addTo(curve, handle, id.get(), newest, toMs);
          }
        });
    return curve.build();
  }

  /** The names of a bench's series, sorted: {@code A1/mass} and so on. */
  public List<String> names(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT name FROM series WHERE bench = ? ORDER BY name")
                .bind(0, bench)
                .mapTo(String.class)
                .list());
  }

  /** The unit of a series as its bench wrote it. */
  public Optional<String> unit(String bench, String name) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT unit FROM series WHERE bench = ? AND name = ?")
                .bind(0, bench)
                .bind(1, name)
                .mapTo(String.class)
                .findOne());
  }
}
