package dev.cupwarden.host.store;

import dev.cupwarden.core.messages.AlertNotice;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** The last word on each alert of each bench, and who has seen it. */
public final class Alerts {
  private static final String COLUMNS =
      "bench, code, cup, state, at_ms, notice, seen_ms, seen_by, told_ms";
  private final Jdbi jdbi;

  Alerts(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /** Whose alert it is; cup and tank are empty for the whole bench. */
  public record Key(String bench, String code, Optional<String> cup, Optional<String> tank)
      implements Comparable<Key> {
    private static final Comparator<Key> ORDER =
        Comparator.comparing(Key::bench).thenComparing(Key::code).thenComparing(Key::column);

    /** No cup's name has a colon, so that a tank's name can stand in the same column. */
    private static final String TANK = "tank:";

    /** Of a cup, or of the whole bench. */
    public Key(String bench, String code, Optional<String> cup) {
      this(bench, code, cup, Optional.empty());
    }

    /** Whose it is that a bench tells of. */
    public static Key of(String bench, AlertNotice notice) {
      return new Key(
          bench,
          notice.code(),
          Optional.ofNullable(notice.cup()),
          Optional.ofNullable(notice.tank()));
    }

    @Override
    public int compareTo(Key other) {
      return ORDER.compare(this, other);
    }

    private String column() {
      return cup.or(() -> tank.map(TANK::concat)).orElse("");
    }

    private static Key of(String bench, String code, String column) {
      boolean ofTank = column.startsWith(TANK);
      return new Key(
          bench,
          code,
          column.isEmpty() || ofTank ? Optional.empty() : Optional.of(column),
          ofTank ? Optional.of(column.substring(TANK.length())) : Optional.empty());
    }
  }

  /** A person has seen it. */
  public record Seen(Instant at, String by) {}

  /**
   * An alert.
   *
   * @param state {@code warned}, {@code raised} or {@code cleared}
   * @param at when it was last told
   * @param notice JSON, as the bench wrote it
   * @param told when the host last told it to people, if it is one of its own
   */
  public record AlertRow(
      Key key,
      String state,
      Instant at,
      String notice,
      Optional<Seen> seen,
      Optional<Instant> told) {
    public boolean isOpen() {
      return !state.equals("cleared");
    }
  }

  /**
   * Keeps the last word; an older one that comes late changes nothing. What is cleared has to be
   * seen anew when it is raised again.
   *
   * @return the state before, {@code cleared} where there was none; empty if this word is older
   */
  public Optional<String> put(Handle handle, Key key, String state, Instant at, String json) {
    Optional<AlertRow> before = find(handle, key);
    if (before.isPresent() && at.isBefore(before.get().at())) {
      return Optional.empty();
    }
    handle.execute(
        "INSERT INTO alerts (bench, code, cup, state, at_ms, notice) VALUES (?, ?, ?, ?, ?, ?)"
            + " ON CONFLICT (bench, code, cup) DO UPDATE SET state = excluded.state,"
            + " at_ms = excluded.at_ms, notice = excluded.notice,"
            + " seen_ms = CASE WHEN excluded.state = 'cleared' THEN NULL ELSE alerts.seen_ms END,"
            + " seen_by = CASE WHEN excluded.state = 'cleared' THEN NULL ELSE alerts.seen_by END"
            + " WHERE excluded.at_ms >= alerts.at_ms",
        key.bench(),
        key.code(),
        key.column(),
        state,
        at.toEpochMilli(),
        json);
    return Optional.of(before.map(AlertRow::state).orElse("cleared"));
  }

  private static Optional<AlertRow> find(Handle handle, Key key) {
    return handle
        .createQuery("SELECT " + COLUMNS + " FROM alerts WHERE bench = ? AND code = ? AND cup = ?")
        .bind(0, key.bench())
        .bind(1, key.code())
        .bind(2, key.column())
        .map((rows, context) -> rowOf(rows))
        .findOne();
  }

  public Optional<AlertRow> find(Key key) {
    return jdbi.withHandle(handle -> find(handle, key));
  }

  /** Alerts that are not cleared, oldest first. */
  public List<AlertRow> open(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT "
                        + COLUMNS
                        + " FROM alerts WHERE bench = ? AND state <> 'cleared'"
                        + " ORDER BY at_ms, code, cup")
                .bind(0, bench)
                .map((rows, context) -> rowOf(rows))
                .list());
  }

  private static AlertRow rowOf(ResultSet rows) throws SQLException {
    long seenMs = rows.getLong(7);
    boolean unseen = rows.wasNull();
    long toldMs = rows.getLong(9);
    boolean untold = rows.wasNull();
    return new AlertRow(
        Key.of(rows.getString(1), rows.getString(2), rows.getString(3)),
        rows.getString(4),
        Instant.ofEpochMilli(rows.getLong(5)),
        rows.getString(6),
        unseen
            ? Optional.empty()
            : Optional.of(new Seen(Instant.ofEpochMilli(seenMs), rows.getString(8))),
        untold ? Optional.empty() : Optional.of(Instant.ofEpochMilli(toldMs)));
  }

  /**
   * It is told to people at that time; of several hosts only one does.
   *
   * @param due it was told last then or before, or never
   * @return false if another host has just told it
   */
  public boolean told(Handle handle, Key key, Instant now, Instant due) {
    return handle.execute(
            "UPDATE alerts SET told_ms = ? WHERE bench = ? AND code = ? AND cup = ?"
                + " AND (told_ms IS NULL OR told_ms <= ?)",
            now.toEpochMilli(),
            key.bench(),
            key.code(),
            key.column(),
            due.toEpochMilli())
        == 1;
  }

  /** A person has seen an open alert; the first who did stays named. False if none is open. */
  public boolean acknowledge(Handle handle, Key key, Seen seen) {
    handle.execute(
        "UPDATE alerts SET seen_ms = ?, seen_by = ? WHERE bench = ? AND code = ? AND cup = ?"
            + " AND state <> 'cleared' AND seen_ms IS NULL",
        seen.at().toEpochMilli(),
        seen.by(),
        key.bench(),
        key.code(),
        key.column());
    return find(handle, key).filter(AlertRow::isOpen).isPresent();
  }
}
