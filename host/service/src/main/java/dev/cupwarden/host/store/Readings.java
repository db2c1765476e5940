package dev.cupwarden.host.store;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.PreparedBatch;

/** Measured values; (bench, name, time) names each once. */
public final class Readings {
  private static final int FETCH_ROWS = 5_000;
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
  public record Reading(String bench, String name, String unit, Instant at, double value) {}

  private record Series(String bench, String name) {}

  /** Stores what is not there yet; the first value of a key stays. */
  public void insert(Handle handle, List<Reading> readings) {
    if (readings.isEmpty()) {
      return;
    }
    // Only what is committed may go into the shared map, so new series are looked up in this one.
    Map<Series, Long> met = new HashMap<>();
    try (PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO readings (series, at_ms, value) VALUES (?, ?, ?) ON CONFLICT DO NOTHING")) {
      for (Reading each : readings) {
        batch
            .bind(0, seriesOf(handle, each, met))
            .bind(1, each.at().toEpochMilli())
            .bind(2, each.value())
            .add();
      }
      batch.execute();
    }
  }

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

  /** The time of the newest value, if any. */
  public Optional<Instant> newest(String bench, String name) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT r.at_ms FROM readings r JOIN series s ON s.id = r.series"
                        + " WHERE s.bench = ? AND s.name = ? ORDER BY r.at_ms DESC LIMIT 1")
                .bind(0, bench)
                .bind(1, name)
                .mapTo(Long.class)
                .findOne()
                .map(Instant::ofEpochMilli));
  }

  /** Values from (inclusive) to (exclusive), in the order of time. */
  public Curve between(String bench, String name, Instant from, Instant to) {
    Curve.Builder curve = new Curve.Builder();
    jdbi.useHandle(
        handle -> {
          Optional<Long> id = find(handle, new Series(bench, name));
          if (id.isPresent()) {
            handle
                .createQuery(
                    "SELECT at_ms, value FROM readings"
                        + " WHERE series = ? AND at_ms >= ? AND at_ms < ? ORDER BY at_ms")
                .bind(0, id.get())
                .bind(1, from.toEpochMilli())
                .bind(2, to.toEpochMilli())
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
        });
    return curve.build();
  }
}
