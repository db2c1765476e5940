package dev.cupwarden.app.journal;

import java.sql.SQLException;
import java.util.Optional;

/**
 * From where the journal can be replayed: each start of the program, and each day's end. All in the
 * transaction of whoever calls.
 */
final class ReplayStarts {
  private final Sql sql;
  private final EventNumbering numbering;

  ReplayStarts(Sql sql, EventNumbering numbering) {
    this.sql = sql;
    this.numbering = numbering;
  }

  /**
   * Takes the place of one that came to no tick: a program that dies at each start must not fill
   * the disk with them.
   *
   * @param firstTick the first tick after it
   * @param cause {@code start} or {@code day}
   */
  void add(long firstTick, String cause, Journal.Start start) throws SQLException {
    sql.update("DELETE FROM start WHERE first_tick = ? AND cause = ?", firstTick, cause);
    sql.update(
        "INSERT INTO start (first_tick, at, cause, epoch, version, bench, state)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?)",
        firstTick,
        start.at().toString(),
        cause,
        numbering.epoch(),
        start.version(),
        start.bench(),
        Cbor.written(start.state()));
  }

  /** The bench file's text as of the last one. */
  Optional<String> lastBench() throws SQLException {
    return sql.first(
        "SELECT bench FROM start ORDER BY rowid DESC LIMIT 1", row -> row.getString(1));
  }

  /** The state that the last one began with, as it is stored. */
  Optional<byte[]> lastState() throws SQLException {
    return sql.first("SELECT state FROM start ORDER BY rowid DESC LIMIT 1", row -> row.getBytes(1));
  }
}
