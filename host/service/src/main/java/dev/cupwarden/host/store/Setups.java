package dev.cupwarden.host.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** How each bench is set up, and every cutting that ever stood on it. */
public final class Setups {
  private final Jdbi jdbi;

  Setups(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * A cup of a set-up.
   *
   * @param struck the day, "" where it was not told
   * @param json all that was told of it
   */
  public record CupRow(String plant, String struck, String json) {}

  /**
   * A cutting.
   *
   * @param since when it was first told of
   * @param gone when it was missed first; null while it stands on the bench
   * @param told JSON: the cup as it was last set up
   */
  public record CuttingRow(String cup, Instant since, Instant gone, String told) {}

  /**
   * Replaces an older set-up; a late one changes nothing.
   *
   * @return names of the cups that stood on the bench before and do no longer
   */
  public Set<String> put(
      Handle handle, String bench, Instant at, String json, Map<String, CupRow> cups) {
    int taken =
        handle.execute(
            "INSERT INTO setups (bench, at_ms, setup) VALUES (?, ?, ?)"
                + " ON CONFLICT (bench) DO UPDATE SET at_ms = excluded.at_ms,"
                + " setup = excluded.setup WHERE excluded.at_ms >= setups.at_ms",
            bench,
            at.toEpochMilli(),
            json);
    if (taken == 0) {
      return Set.of();
    }
    cups.forEach((cup, row) -> standing(handle, bench, cup, at, row));
    Set<String> gone = new TreeSet<>(known(handle, bench));
    gone.removeAll(cups.keySet());
    for (String cup : gone) {
      end(handle, bench, cup, at);
    }
    return gone;
  }

  /** One that was taken out by mistake and put back goes on as the same cutting. */
  private static void standing(Handle handle, String bench, String cup, Instant at, CupRow row) {
    int same =
        handle.execute(
            "UPDATE cuttings SET told = ?, gone_ms = NULL WHERE bench = ? AND cup = ?"
                + " AND plant = ? AND struck = ? AND since_ms = (SELECT MAX(l.since_ms)"
                + " FROM cuttings l WHERE l.bench = ? AND l.cup = ?)",
            row.json(),
            bench,
            cup,
            row.plant(),
            row.struck(),
            bench,
            cup);
    if (same == 0) {
      end(handle, bench, cup, at);
      handle.execute(
          "INSERT INTO cuttings (bench, cup, since_ms, plant, struck, told)"
              + " VALUES (?, ?, ?, ?, ?, ?)",
          bench,
          cup,
          at.toEpochMilli(),
          row.plant(),
          row.struck(),
          row.json());
    }
  }

  private static void end(Handle handle, String bench, String cup, Instant at) {
    handle.execute(
        "UPDATE cuttings SET gone_ms = ? WHERE bench = ? AND cup = ? AND gone_ms IS NULL",
        at.toEpochMilli(),
        bench,
        cup);
  }

  private static List<String> known(Handle handle, String bench) {
    return handle
        .createQuery(
            "SELECT cup FROM cuttings WHERE bench = ? AND gone_ms IS NULL"
                + " UNION SELECT cup FROM cups WHERE bench = ?")
        .bind(0, bench)
        .bind(1, bench)
        .mapTo(String.class)
        .list();
  }

  /** The set-up as JSON, if the bench has told one. */
  public Optional<String> find(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT setup FROM setups WHERE bench = ?")
                .bind(0, bench)
                .mapTo(String.class)
                .findOne());
  }

  /** All cuttings, by cup and time. */
  public List<CuttingRow> cuttings(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT cup, since_ms, gone_ms, told FROM cuttings WHERE bench = ?"
                        + " ORDER BY cup, since_ms")
                .bind(0, bench)
                .map((rows, context) -> cuttingOf(rows))
                .list());
  }

  private static CuttingRow cuttingOf(ResultSet rows) throws SQLException {
    long goneMs = rows.getLong(3);
    Instant gone = rows.wasNull() ? null : Instant.ofEpochMilli(goneMs);
    return new CuttingRow(
        rows.getString(1), Instant.ofEpochMilli(rows.getLong(2)), gone, rows.getString(4));
  }
}
