package dev.cupwarden.host.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** The latest word of each bench and of each of its cups, as JSON as it was received. */
public final class Benches {
  private final Jdbi jdbi;

  Benches(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * A bench.
   *
   * @param presence {@code online}, {@code offline}, or null while nothing was said
   * @param status JSON, or null while nothing was said
   */
  public record BenchRow(String bench, String presence, Instant since, String status) {}

  /** The bench is known from now on, even if it has said nothing yet. */
  public void touch(Handle handle, String bench) {
    handle.execute("INSERT INTO benches (bench) VALUES (?) ON CONFLICT DO NOTHING", bench);
  }

  /** The last word counts, also when its time is older: a controller's clock may have been set. */
  public void presence(Handle handle, String bench, String state, Instant since, Instant now) {
    handle.execute(
        "INSERT INTO benches (bench, presence, since_ms, turned_ms) VALUES (?, ?, ?, ?)"
            + " ON CONFLICT (bench) DO UPDATE SET presence = excluded.presence,"
            + " since_ms = excluded.since_ms,"
            + " turned_ms = CASE WHEN benches.presence = excluded.presence"
            + " THEN benches.turned_ms ELSE excluded.turned_ms END",
        bench,
        state,
        since.toEpochMilli(),
        now.toEpochMilli());
  }

  /** The bench has just finished a tick; not what a broker had kept of it. */
  public void heard(Handle handle, String bench, Instant now) {
    handle.execute(
        "UPDATE benches SET heard_ms = ? WHERE bench = ? AND (heard_ms IS NULL OR heard_ms < ?)",
        now.toEpochMilli(),
        bench,
        now.toEpochMilli());
  }

  /**
   * When a bench was last heard and its presence last turned, by the host's clock.
   *
   * @param presence {@code online}, {@code offline} or null
   * @param status JSON, or null
   * @param beat its last beat, if it ever told one
   */
  public record Hearing(
      String bench,
      String presence,
      Optional<Instant> turned,
      Optional<Instant> heard,
      String status,
      Optional<Instant> beat) {}

  /** The bench's loop has just said that it lives. */
  public void beat(Handle handle, String bench, Instant now) {
    handle.execute(
        "INSERT INTO benches (bench, beat_ms) VALUES (?, ?) ON CONFLICT (bench) DO UPDATE SET"
            + " beat_ms = excluded.beat_ms"
            + " WHERE benches.beat_ms IS NULL OR benches.beat_ms < excluded.beat_ms",
        bench,
        now.toEpochMilli());
  }

  public List<Hearing> hearings() {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT bench, presence, turned_ms, heard_ms, status, beat_ms FROM benches"
                        + " ORDER BY bench")
                .map(
                    (rows, context) ->
                        new Hearing(
                            rows.getString(1),
                            rows.getString(2),
                            timeOf(rows, 3),
                            timeOf(rows, 4),
                            rows.getString(5),
                            timeOf(rows, 6)))
                .list());
  }

  private static Optional<Instant> timeOf(java.sql.ResultSet rows, int column)
      throws java.sql.SQLException {
    long ms = rows.getLong(column);
    return rows.wasNull() ? Optional.empty() : Optional.of(Instant.ofEpochMilli(ms));
  }

  /** Replaces an older status; a late one changes nothing. */
  public void status(Handle handle, String bench, Instant at, String json) {
    handle.execute(
        "INSERT INTO benches (bench, status, status_ms) VALUES (?, ?, ?)"
            + " ON CONFLICT (bench) DO UPDATE SET status = excluded.status,"
            + " status_ms = excluded.status_ms"
            + " WHERE benches.status_ms IS NULL OR excluded.status_ms >= benches.status_ms",
        bench,
        json,
        at.toEpochMilli());
  }

  /** Replaces an older status of a cup; a late one changes nothing. */
  public void cup(Handle handle, String bench, String cup, Instant at, String json) {
    handle.execute(
        "INSERT INTO cups (bench, cup, at_ms, status) VALUES (?, ?, ?, ?)"
            + " ON CONFLICT (bench, cup) DO UPDATE SET at_ms = excluded.at_ms,"
            + " status = excluded.status WHERE excluded.at_ms >= cups.at_ms",
        bench,
        cup,
        at.toEpochMilli(),
        json);
  }

  /** A cup whose retained status was emptied is no longer on the bench; its readings stay. */
  public void removeCup(Handle handle, String bench, String cup) {
    handle.execute("DELETE FROM cups WHERE bench = ? AND cup = ?", bench, cup);
  }

  public List<BenchRow> all() {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT bench, presence, since_ms, status FROM benches ORDER BY bench")
                .map((rows, context) -> rowOf(rows))
                .list());
  }

  public Optional<BenchRow> find(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT bench, presence, since_ms, status FROM benches WHERE bench = ?")
                .bind(0, bench)
                .map((rows, context) -> rowOf(rows))
                .findOne());
  }

  private static BenchRow rowOf(java.sql.ResultSet rows) throws java.sql.SQLException {
    long sinceMs = rows.getLong(3);
    Instant since = rows.wasNull() ? null : Instant.ofEpochMilli(sinceMs);
    return new BenchRow(rows.getString(1), rows.getString(2), since, rows.getString(4));
  }

  /** Statuses of all cups of a bench as JSON, by name. */
  public List<String> cups(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT status FROM cups WHERE bench = ? ORDER BY cup")
                .bind(0, bench)
                .mapTo(String.class)
                .list());
  }

  public boolean hasCup(String bench, String cup) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT 1 FROM cups WHERE bench = ? AND cup = ?")
                .bind(0, bench)
                .bind(1, cup)
                .mapTo(Integer.class)
                .findOne()
                .isPresent());
  }
}
