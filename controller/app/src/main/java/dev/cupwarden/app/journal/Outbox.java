package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import java.nio.file.Path;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;

/**
 * The link's side of the journal, on a connection of its own so that the network never holds up the
 * loop: what is still to be told, and the orders that came in.
 */
public final class Outbox implements AutoCloseable {
  /**
   * A pack of readings that no broker has taken yet.
   *
   * @param tick its name in the journal
   */
  public record Pack(long tick, String senml) {}

  /** What a host's word changed. */
  public enum Mark {
    /** Events have left the outbox. */
    MOVED,
    /** Nothing: it was known, or is of another epoch. */
    STANDS,
    /** The host knows numbers that this journal never gave: a new epoch has begun. */
    NEW_EPOCH
  }

  /** What the inbox made of an order. */
  public enum Reception {
    /** New: the next tick will take it. */
    NEW,
    /** The very same message again, as MQTT may deliver it: nothing to say. */
    SAME_AGAIN,
    /** Another order under an id that was used before. */
    REPEATED,
    /** So much waits already that there is no room for it. */
    FULL
  }

  private final Sql sql;
  private final EventNumbering numbering;
  private final Inbox inbox;

  private Outbox(Sql sql) {
    this.sql = sql;
    this.numbering = new EventNumbering(sql);
    this.inbox = new Inbox(sql);
  }

  /** Opens the outbox of a journal that is already open. */
  public static Outbox of(Journal journal) throws JournalException {
    return of(journal.file());
  }

  private static Outbox of(Path file) throws JournalException {
    try {
      return new Outbox(new Sql(JournalFile.connect(file)));
    } catch (SQLException e) {
      throw JournalException.of("opening the outbox", e);
    }
  }

  /**
   * The next events to send, in their order.
   *
   * @param sentEpoch the epoch of the last one already sent; when another one has begun since, all
   *     that waits is sent
   * @param sentSeq its number; 0 for all that no host has kept
   */
  public List<Event> eventsAfter(String sentEpoch, long sentSeq, int most) throws JournalException {
    return sql.inTransaction(
        "reading events",
        () -> {
          String epoch = numbering.epoch();
          long after = epoch.equals(sentEpoch) ? sentSeq : 0;
          return sql.list(
              "SELECT seq, at, kind, cup, data FROM event WHERE seq > ? ORDER BY seq LIMIT ?",
              row -> event(epoch, row),
              after,
              most);
        });
  }

  private static Event event(String epoch, ResultSet row) throws SQLException {
    try {
      return new Event(
          epoch,
          row.getLong(1),
          Instant.parse(row.getString(2)),
          row.getString(3),
          row.getString(4),
          Json.MAPPER.readTree(row.getString(5)));
    } catch (JsonProcessingException e) {
      throw new SQLException("an event in the journal is not JSON", e);
    }
  }

  /** Whether any event waits for a host. */
  public boolean anyUnkept() throws JournalException {
    return sql.inTransaction(
            "counting events", () -> sql.number("SELECT EXISTS(SELECT 1 FROM event)"))
        == 1;
  }

  /**
   * A host has stored all events of an epoch up to a number: they leave the outbox. A number that
   * was never given means that this journal is older than what the host holds: a new epoch begins.
   */
  public Mark kept(Kept kept) throws JournalException {
    return sql.inTransaction(
        "taking a host's word",
        () -> {
          if (!numbering.epoch().equals(kept.epoch())) {
            return Mark.STANDS;
          }
          boolean fromTheFuture = kept.seq() > sql.number("SELECT last_seq FROM numbering");
          if (fromTheFuture) {
            numbering.beginEpoch();
            return Mark.NEW_EPOCH;
          }
          int left = sql.update("DELETE FROM event WHERE seq <= ?", kept.seq());
          sql.update("UPDATE numbering SET kept_seq = max(kept_seq, ?)", kept.seq());
          return left > 0 ? Mark.MOVED : Mark.STANDS;
        });
  }

  /** Packs that wait for a broker, the oldest first. */
  public List<Pack> packsAfter(long tick, int most) throws JournalException {
    return sql.inTransaction(
        "reading packs",
        () ->
            sql.list(
                "SELECT tick, senml FROM pack WHERE tick > ? ORDER BY tick LIMIT ?",
                row -> new Pack(row.getLong(1), row.getString(2)),
                tick,
                most));
  }

  /** A broker has taken these packs. */
  public void sent(List<Long> ticks) throws JournalException {
    sql.inTransaction(
        "letting packs go",
        () -> {
          for (long tick : ticks) {
            sql.update("DELETE FROM pack WHERE tick = ?", tick);
          }
          return null;
        });
  }

  /**
   * Puts an order where the next tick finds it; on the disk when this returns, so that the broker
   * may then be told that it arrived.
   *
   * @param body the order as it was written
   * @param stopsWater whether it may have the room that is kept for such orders
   */
  public Reception receive(
      String id, Instant received, Instant expires, String body, boolean stopsWater)
      throws JournalException {
    return sql.inTransaction(
        "taking an order", () -> inbox.receive(id, received, expires, body, stopsWater));
  }

  /** Likewise, of an order that stops no water. */
  public Reception receive(String id, Instant received, Instant expires, String body)
      throws JournalException {
    return receive(id, received, expires, body, false);
  }

  /** Orders that no tick has taken yet. */
  public long waitingOrders() throws JournalException {
    return sql.inTransaction("counting orders", inbox::count);
  }

  @Override
  public void close() throws JournalException {
    sql.close();
  }
}
