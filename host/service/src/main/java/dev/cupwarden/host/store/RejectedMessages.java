package dev.cupwarden.host.store;

import java.time.Instant;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** Messages that could not be understood, kept for a person to look at. */
public final class RejectedMessages {
  /** Nobody reads more, and a sender gone mad must not fill the disk. */
  static final int MOST_ROWS = 10_000;

  private static final int MOST_CHARS = 512;
  private final Jdbi jdbi;

  RejectedMessages(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * One of them.
   *
   * @param bytes the whole payload's size
   * @param head the payload's beginning, what is not printable replaced
   */
  public record RejectedRow(Instant at, String topic, String reason, long bytes, String head) {}

  public void insert(Handle handle, RejectedRow row) {
    handle.execute(
        "INSERT INTO aside (at_ms, topic, reason, bytes, head) VALUES (?, ?, ?, ?, ?)",
        row.at().toEpochMilli(),
        shortened(row.topic()),
        shortened(row.reason()),
        row.bytes(),
        shortened(row.head()));
  }

  private static String shortened(String text) {
    return text.length() <= MOST_CHARS ? text : text.substring(0, MOST_CHARS);
  }

  /** Drops the oldest beyond the most that are kept. */
  public void trim(Handle handle) {
    handle.execute(
        "DELETE FROM aside WHERE at_ms < (SELECT MIN(at_ms) FROM (SELECT at_ms FROM aside"
            + " ORDER BY at_ms DESC LIMIT "
            + MOST_ROWS
            + ") newest)");
  }

  public long count() {
    return jdbi.withHandle(
        handle -> handle.createQuery("SELECT COUNT(*) FROM aside").mapTo(Long.class).one());
  }

  /** The newest, newest first. */
  public List<RejectedRow> newest(int limit) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT at_ms, topic, reason, bytes, head FROM aside ORDER BY at_ms DESC LIMIT ?")
                .bind(0, limit)
                .map(
                    (rows, context) ->
                        new RejectedRow(
                            Instant.ofEpochMilli(rows.getLong(1)),
                            rows.getString(2),
                            rows.getString(3),
                            rows.getLong(4),
                            rows.getString(5)))
                .list());
  }
}
