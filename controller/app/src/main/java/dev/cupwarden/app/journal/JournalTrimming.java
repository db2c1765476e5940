package dev.cupwarden.app.journal;

import java.sql.SQLException;
import java.time.Instant;

/** Keeps the journal bounded: what is old goes, in an order that loses the least. */
final class JournalTrimming {
  private final Sql sql;
  private final EventNumbering numbering;

  JournalTrimming(Sql sql, EventNumbering numbering) {
    this.sql = sql;
    this.numbering = numbering;
  }

  /** Within a transaction. */
  void run(Instant now, JournalRetention retention) throws SQLException {
    String oldestSeen = now.minus(retention.observations()).toString();
    // Replay starts at a start record, so observations go only up to the next one.
    long keptFrom =
        sql.number(
            "SELECT max(first_tick) FROM start WHERE datetime(at) <= datetime(?)", oldestSeen);
    sql.update("DELETE FROM observation WHERE tick < ?", keptFrom);
    sql.update("DELETE FROM start WHERE first_tick < ?", keptFrom);
    sql.update(
        "DELETE FROM pass WHERE outcome IS NOT NULL AND datetime(at) < datetime(?)",
        now.minus(retention.passes()).toString());
    // An id must be remembered for as long as a repeat of its order would not yet be stale.
    sql.update(
        "DELETE FROM inbox WHERE taken_tick IS NOT NULL AND datetime(expires) < datetime(?)",
        now.toString());
    thinPacks(retention.packs());
    dropEvents(retention.events());
  }

  /** Every second pack of the older half goes, so that a long gap stays a coarse curve. */
  private void thinPacks(int most) throws SQLException {
    while (sql.number("SELECT count(*) FROM pack") > most) {
      sql.update(
          "DELETE FROM pack WHERE tick IN (SELECT tick FROM"
              + " (SELECT tick, row_number() OVER (ORDER BY tick) AS place FROM pack)"
              + " WHERE place % 2 = 0 AND place <= (SELECT count(*) FROM pack) / 2 + 1)");
    }
  }

  /** Changes and receipts go before doses and alerts, the oldest first; a new epoch follows. */
  private void dropEvents(int most) throws SQLException {
    long over = sql.number("SELECT count(*) FROM event") - most;
    if (over <= 0) {
      return;
    }
    sql.update(
        "DELETE FROM event WHERE seq IN"
            + " (SELECT seq FROM event ORDER BY kind IN ('dose', 'alert'), seq LIMIT ?)",
        over);
    numbering.beginEpoch();
  }
}
