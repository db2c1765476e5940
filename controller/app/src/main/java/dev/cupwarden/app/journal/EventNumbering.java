package dev.cupwarden.app.journal;

import java.sql.SQLException;
import java.util.UUID;

/**
 * Numbers events: (epoch, seq) names each once and for all, seq from 1 without a gap.
 *
 * <p>An epoch ends when its numbers can no longer be trusted to be new: when a host has kept a
 * higher one than this journal has given (the file was put back from a copy), or when events had to
 * be dropped unkept. What still waits is then numbered anew.
 */
final class EventNumbering {
  private final Sql sql;

  EventNumbering(Sql sql) {
    this.sql = sql;
  }

  /** Within a transaction: numbers the event and puts it into the outbox. */
  void add(JournalEvent event) throws SQLException {
    long seq =
        sql.first(
                "UPDATE numbering SET last_seq = last_seq + 1 RETURNING last_seq",
                row -> row.getLong(1))
            .orElseThrow();
    sql.update(
        "INSERT INTO event (seq, at, kind, cup, data) VALUES (?, ?, ?, ?, ?)",
        seq,
        event.at().toString(),
        event.kind(),
        event.cup(),
        event.data().toString());
  }

  String epoch() throws SQLException {
    return sql.first("SELECT epoch FROM numbering", row -> row.getString(1)).orElseThrow();
  }

  /** Within a transaction: what waits is numbered from 1 in a new epoch, in its order. */
  void beginEpoch() throws SQLException {
    sql.update(
        "CREATE TEMP TABLE waiting AS"
            + " SELECT row_number() OVER (ORDER BY seq) AS seq, at, kind, cup, data FROM event");
    sql.update("DELETE FROM event");
    sql.update("INSERT INTO event SELECT seq, at, kind, cup, data FROM waiting");
    sql.update("DROP TABLE waiting");
    sql.update(
        "UPDATE numbering SET epoch = ?, kept_seq = 0,"
            + " last_seq = (SELECT coalesce(max(seq), 0) FROM event)",
        UUID.randomUUID().toString());
  }
}
