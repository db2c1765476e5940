package dev.cupwarden.host.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.Query;

/** Events, once each by (bench, epoch, seq), and how far each journal has been kept. */
public final class Events {
  /** The journal of what a host says itself. */
  public static final String OWN_EPOCH = "host";

  private final Jdbi jdbi;

  Events(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * An event as stored.
   *
   * @param cup null for the whole bench
   * @param data JSON
   */
  public record EventRow(
      String bench, String epoch, long seq, Instant at, String kind, String cup, String data) {}

  /**
   * What to look for.
   *
   * @param cup null for any, as for {@code kind}
   * @param from inclusive
   * @param to exclusive
   * @param limit the newest so many
   */
  public record Search(
      String bench, String cup, String kind, Instant from, Instant to, int limit) {}

  /** True if it was new. */
  public boolean insert(Handle handle, EventRow event) {
    return handle.execute(
            "INSERT INTO events (bench, epoch, seq, at_ms, kind, cup, data)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING",
            event.bench(),
            event.epoch(),
            event.seq(),
            event.at().toEpochMilli(),
            event.kind(),
            event.cup(),
            event.data())
        == 1;
  }

  /**
   * Moves the mark over what is stored without a gap.
   *
   * @return the mark
   */
  public long advanceKept(Handle handle, String bench, String epoch) {
    long mark = kept(handle, bench, epoch);
    long next =
        handle
            .createQuery(
                // The first number after the mark whose successor is missing.
                "SELECT e.seq FROM events e WHERE e.bench = :bench AND e.epoch = :epoch"
                    + " AND e.seq > :mark AND EXISTS (SELECT 1 FROM events f WHERE f.bench = :bench"
                    + " AND f.epoch = :epoch AND f.seq = :first)"
                    + " AND NOT EXISTS (SELECT 1 FROM events n WHERE n.bench = :bench"
                    + " AND n.epoch = :epoch AND n.seq = e.seq + 1) ORDER BY e.seq LIMIT 1")
            .bind("bench", bench)
            .bind("epoch", epoch)
            .bind("mark", mark)
            .bind("first", mark + 1)
            .mapTo(Long.class)
            .findOne()
            .orElse(mark);
    if (next != mark) {
      setKept(handle, bench, epoch, next);
    }
    return next;
  }

  /** The least number stored beyond a mark, if any: there is a gap if it is not the next one. */
  public Optional<Long> nextAfter(Handle handle, String bench, String epoch, long mark) {
    return handle
        .createQuery(
            "SELECT seq FROM events WHERE bench = ? AND epoch = ? AND seq > ? ORDER BY seq LIMIT 1")
        .bind(0, bench)
        .bind(1, epoch)
        .bind(2, mark)
        .mapTo(Long.class)
        .findOne();
  }

  /** The greatest number stored of a journal, 0 if there is none. */
  public long highest(Handle handle, String bench, String epoch) {
    return handle
        .createQuery("SELECT COALESCE(MAX(seq), 0) FROM events WHERE bench = ? AND epoch = ?")
        .bind(0, bench)
        .bind(1, epoch)
        .mapTo(Long.class)
        .one();
  }

  /** Numbers that never came are passed over: the mark moves behind them, and they are noted. */
  public void passOver(Handle handle, Gap gap, Instant now) {
    handle.execute(
        "INSERT INTO gaps (bench, epoch, first_seq, last_seq, at_ms) VALUES (?, ?, ?, ?, ?)"
            + " ON CONFLICT DO NOTHING",
        gap.bench(),
        gap.epoch(),
        gap.first(),
        gap.last(),
        now.toEpochMilli());
    setKept(handle, gap.bench(), gap.epoch(), gap.last());
  }

  /** Numbers of a journal, first and last of those that never came. */
  public record Gap(String bench, String epoch, long first, long last) {
    public long events() {
      return last - first + 1;
    }
  }

  /** What was passed over, oldest first. */
  public List<Gap> gaps(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT bench, epoch, first_seq, last_seq FROM gaps WHERE bench = ?"
                        + " ORDER BY at_ms, first_seq")
                .bind(0, bench)
                .map(
                    (rows, context) ->
                        new Gap(
                            rows.getString(1), rows.getString(2), rows.getLong(3), rows.getLong(4)))
                .list());
  }

  /** What the host itself has to say of a bench goes among its events, in a journal of its own. */
  public EventRow insertOwn(
      Handle handle, String bench, Instant at, String kind, String cup, String data) {
    EventRow row;
    do {
      // Another host may take the same number at once; then this one looks again.
      long seq = highest(handle, bench, OWN_EPOCH) + 1;
      row = new EventRow(bench, OWN_EPOCH, seq, at, kind, cup, data);
    } while (!insert(handle, row));
    return row;
  }

  private static void setKept(Handle handle, String bench, String epoch, long seq) {
    handle.execute(
        "INSERT INTO kept (bench, epoch, seq) VALUES (?, ?, ?)"
            + " ON CONFLICT (bench, epoch) DO UPDATE SET seq = excluded.seq"
            + " WHERE excluded.seq > kept.seq",
        bench,
        epoch,
        seq);
  }

  private static long kept(Handle handle, String bench, String epoch) {
    return handle
        .createQuery("SELECT seq FROM kept WHERE bench = ? AND epoch = ?")
        .bind(0, bench)
        .bind(1, epoch)
        .mapTo(Long.class)
        .findOne()
        .orElse(0L);
  }

  /** The mark of a journal, 0 before its first event. */
  public long kept(String bench, String epoch) {
    return jdbi.withHandle(handle -> kept(handle, bench, epoch));
  }

  /** The newest events that match, newest first. */
  public List<EventRow> find(Search search) {
    StringBuilder sql =
        new StringBuilder(
            "SELECT bench, epoch, seq, at_ms, kind, cup, data FROM events"
                + " WHERE bench = :bench AND at_ms >= :from AND at_ms < :to");
    if (search.cup() != null) {
      sql.append(" AND cup = :cup");
    }
    if (search.kind() != null) {
      sql.append(" AND kind = :kind");
    }
    sql.append(" ORDER BY at_ms DESC, seq DESC LIMIT :limit");
    return jdbi.withHandle(
        handle -> {
          Query query =
              handle
                  .createQuery(sql.toString())
                  .bind("bench", search.bench())
                  .bind("from", search.from().toEpochMilli())
                  .bind("to", search.to().toEpochMilli())
                  .bind("limit", search.limit());
          if (search.cup() != null) {
            query.bind("cup", search.cup());
          }
          if (search.kind() != null) {
            query.bind("kind", search.kind());
          }
          return query.map((rows, context) -> rowOf(rows)).list();
        });
  }

  /** The first events of a cup and kind after a moment, oldest first. */
  public List<EventRow> after(String bench, String cup, String kind, Instant after, int limit) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT bench, epoch, seq, at_ms, kind, cup, data FROM events"
                        + " WHERE bench = ? AND cup = ? AND kind = ? AND at_ms > ?"
                        + " ORDER BY at_ms, seq LIMIT ?")
                .bind(0, bench)
                .bind(1, cup)
                .bind(2, kind)
                .bind(3, after.toEpochMilli())
                .bind(4, limit)
                .map((rows, context) -> rowOf(rows))
                .list());
  }

  /** Every event of a kind within a time, oldest first. */
  public void each(String bench, String kind, Instant from, Instant to, Consumer<EventRow> taker) {
    jdbi.useHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT bench, epoch, seq, at_ms, kind, cup, data FROM events"
                        + " WHERE bench = ? AND at_ms >= ? AND at_ms < ? AND kind = ?"
                        + " ORDER BY at_ms, seq")
                .bind(0, bench)
                .bind(1, from.toEpochMilli())
                .bind(2, to.toEpochMilli())
                .bind(3, kind)
                .map((rows, context) -> rowOf(rows))
                .forEach(taker));
  }

  /**
   * What a cup was given for one cause, as far as events tell it.
   *
   * @param cup null where a pass was for no cup
   * @param why the cause, {@code hand} for a person's can
   */
  public record Given(String cup, String why, long passes, double plainMl, double feedMl) {}

  /** Sums of the doses within a time, by cup and cause. */
  public List<Given> given(String bench, Instant from, Instant to) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT cup, why, COUNT(*), SUM(plain_ml), SUM(feed_ml) FROM (SELECT cup, "
                        + Database.jsonText(handle, "data", "why")
                        + " AS why, CAST("
                        + Database.jsonText(handle, "data", "plain_ml")
                        + " AS DOUBLE PRECISION) AS plain_ml, CAST("
                        + Database.jsonText(handle, "data", "feed_ml")
                        + " AS DOUBLE PRECISION) AS feed_ml FROM events WHERE bench = ?"
                        + " AND kind = 'dose' AND at_ms >= ? AND at_ms < ?) doses"
                        + " GROUP BY cup, why ORDER BY cup, why")
                .bind(0, bench)
                .bind(1, from.toEpochMilli())
                .bind(2, to.toEpochMilli())
                .map(
                    (rows, context) ->
                        new Given(
                            rows.getString(1),
                            rows.getString(2),
                            rows.getLong(3),
                            rows.getDouble(4),
                            rows.getDouble(5)))
                .list());
  }

  private static EventRow rowOf(java.sql.ResultSet rows) throws java.sql.SQLException {
    return new EventRow(
        rows.getString(1),
        rows.getString(2),
        rows.getLong(3),
        Instant.ofEpochMilli(rows.getLong(4)),
        rows.getString(5),
        rows.getString(6),
        rows.getString(7));
  }
}
