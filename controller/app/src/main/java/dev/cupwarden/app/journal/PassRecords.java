package dev.cupwarden.app.journal;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Dose;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What was to be given, put down before the pump starts, and what became of it. All in the
 * transaction of whoever calls.
 */
final class PassRecords {
  private final Sql sql;
  private final EventNumbering numbering;

  PassRecords(Sql sql, EventNumbering numbering) {
    this.sql = sql;
    this.numbering = numbering;
  }

  /** Puts them down, in the order to give them. */
  List<Journal.Intent> add(long tick, Instant at, List<Advice.Pass> passes) throws SQLException {
    List<Journal.Intent> intents = new ArrayList<>();
    for (Advice.Pass pass : passes) {
      intents.add(new Journal.Intent(add(tick, at, pass), pass));
    }
    return intents;
  }

  private long add(long tick, Instant at, Advice.Pass pass) throws SQLException {
    return sql.first(
            "INSERT INTO pass (tick, at, cup, plain_ml, feed_ml, strength, why)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?) RETURNING id",
            row -> row.getLong(1),
            tick,
            at.toString(),
            pass.cup(),
            pass.plainMl(),
            pass.feedMl(),
            pass.strength(),
            pass.why())
        .orElseThrow();
  }

  /** Closes an intent, unless it is closed, and tells of it. */
  void close(Journal.Intent intent, Instant at, Dose ran, String detail) throws SQLException {
    int changed =
        sql.update(
            "UPDATE pass SET outcome = ?, outcome_at = ?, ran_plain_ml = ?, ran_feed_ml = ?,"
                + " detail = ? WHERE id = ? AND outcome IS NULL",
            ran.outcome(),
            at.toString(),
            ran.plainMl(),
            ran.feedMl(),
            detail,
            intent.id());
    if (changed == 1) {
      numbering.add(JournalEvent.of(at, ran));
    }
  }

  /** Closes every intent that a crash has left open as unknown, which counts as fully given. */
  List<Journal.Intent> closeWhatACrashLeft(Instant at) throws SQLException {
    List<Journal.Intent> open =
        sql.list(
            "SELECT id, cup, plain_ml, feed_ml, strength, why FROM pass"
                + " WHERE outcome IS NULL ORDER BY id",
            row ->
                new Journal.Intent(
                    row.getLong(1),
                    new Advice.Pass(
                        row.getString(2),
                        row.getDouble(3),
                        row.getDouble(4),
                        row.getDouble(5),
                        row.getString(6))));
    for (Journal.Intent intent : open) {
      Advice.Pass pass = intent.pass();
      Dose dose =
          new Dose(
              pass.cup(), pass.plainMl(), pass.feedMl(), pass.strength(), pass.why(), "unknown");
      close(intent, at, dose, "the controller stopped in its midst");
    }
    return open;
  }

  /** What the pump moved since a time, in the order it did. */
  List<Journal.Ran> ranSince(Instant since) throws SQLException {
    return sql.list(
        "SELECT outcome_at, ran_plain_ml + ran_feed_ml FROM pass"
            + " WHERE outcome IS NOT NULL AND datetime(outcome_at) >= datetime(?)"
            + " ORDER BY id",
        row -> new Journal.Ran(Instant.parse(row.getString(1)), row.getDouble(2)),
        since.toString());
  }
}
