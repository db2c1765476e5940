package dev.cupwarden.host.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** What people are still to be told, and what became of what they were told. */
public final class Notices {
  private final Jdbi jdbi;

  Notices(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * A notice on one way.
   *
   * @param way {@code mail} or {@code webhook}
   * @param due not before
   * @param body JSON
   * @param message the message it went into at the first try, and goes with again
   */
  public record NoticeRow(
      String id,
      String way,
      String bench,
      Instant due,
      Instant made,
      String body,
      Optional<String> message,
      int tries) {}

  public void insert(Handle handle, NoticeRow row) {
    handle.execute(
        "INSERT INTO notices (id, way, bench, due_ms, made_ms, body, tries)"
            + " VALUES (?, ?, ?, ?, ?, ?, 0) ON CONFLICT DO NOTHING",
        row.id(),
        row.way(),
        row.bench(),
        row.due().toEpochMilli(),
        row.made().toEpochMilli(),
        row.body());
  }

  /** All that is due and not settled, oldest first. */
  public List<NoticeRow> due(Instant now) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT id, way, bench, due_ms, made_ms, body, message, tries FROM notices"
                        + " WHERE settled_ms IS NULL AND due_ms <= ? ORDER BY made_ms, id")
                .bind(0, now.toEpochMilli())
                .map((rows, context) -> rowOf(rows))
                .list());
  }

  private static NoticeRow rowOf(ResultSet rows) throws SQLException {
    return new NoticeRow(
        rows.getString(1),
        rows.getString(2),
        rows.getString(3),
        Instant.ofEpochMilli(rows.getLong(4)),
        Instant.ofEpochMilli(rows.getLong(5)),
        rows.getString(6),
        Optional.ofNullable(rows.getString(7)),
        rows.getInt(8));
  }

  /**
   * Takes notices for one message and puts off their next try; of two hosts only one gets them.
   *
   * @return false if another host was quicker
   */
  public boolean claim(List<NoticeRow> rows, String message, Instant next) {
    return jdbi.inTransaction(
        handle -> {
          int claimed = 0;
          for (NoticeRow row : rows) {
            claimed +=
                handle.execute(
                    "UPDATE notices SET message = ?, tries = tries + 1, due_ms = ?"
                        + " WHERE id = ? AND tries = ? AND settled_ms IS NULL",
                    message,
                    next.toEpochMilli(),
                    row.id(),
                    row.tries());
          }
          if (claimed != rows.size()) {
            handle.rollback();
            return false;
          }
          return true;
        });
  }

  /** It was sent, or will not be for the reason told. */
  public void settle(String message, Instant now, String outcome) {
    jdbi.useHandle(
        handle ->
            handle.execute(
                "UPDATE notices SET settled_ms = ?, outcome = ? WHERE message = ?",
                now.toEpochMilli(),
                outcome.substring(0, Math.min(outcome.length(), 200)),
                message));
  }

  /** What waits to be sent on that way, tried or not, oldest first. */
  public List<NoticeRow> waiting(Handle handle, String bench, String way) {
    return handle
        .createQuery(
            "SELECT id, way, bench, due_ms, made_ms, body, message, tries FROM notices"
                + " WHERE settled_ms IS NULL AND bench = ? AND way = ? ORDER BY made_ms, id")
        .bind(0, bench)
        .bind(1, way)
        .map((rows, context) -> rowOf(rows))
        .list();
  }

  /** A later notice says what it would have said. */
  public void supersede(Handle handle, NoticeRow row, Instant now) {
    handle.execute(
        "UPDATE notices SET settled_ms = ?, outcome = 'superseded by a later one'"
            + " WHERE id = ? AND settled_ms IS NULL",
        now.toEpochMilli(),
        row.id());
  }

  /** What failed on that way is due now: it works again. */
  public void dueNow(String way, Instant now) {
    jdbi.useHandle(
        handle ->
            handle.execute(
                "UPDATE notices SET due_ms = ? WHERE way = ? AND tries > 0 AND settled_ms IS NULL"
                    + " AND due_ms > ?",
                now.toEpochMilli(),
                way,
                now.toEpochMilli()));
  }

  /** How many of that bench were tried in vain. */
  public long failing(String bench) {
    return failingOtherwise(bench, "");
  }

  /** How many of that bench were tried in vain on other ways than that. */
  public long failingOtherwise(String bench, String way) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT COUNT(*) FROM notices"
                        + " WHERE settled_ms IS NULL AND tries > 0 AND bench = ? AND way <> ?")
                .bind(0, bench)
                .bind(1, way)
                .mapTo(Long.class)
                .one());
  }

  /** How many wait to be sent. */
  public long waiting() {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT COUNT(*) FROM notices WHERE settled_ms IS NULL")
                .mapTo(Long.class)
                .one());
  }
}
