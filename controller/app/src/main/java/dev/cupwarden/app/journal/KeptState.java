package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.ByteArrayBuilder;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import java.io.IOException;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The bench's state on the disk. Most of a cup's record stays as it is from tick to tick, so a
 * record of each lies there whole, and a tick writes how the cups differ from those, in one row.
 * Some cups in turn are written whole again at each tick, so that the differences stay small.
 *
 * <p>All in the transaction of whoever calls.
 */
final class KeptState {
  /** After so many ticks every cup has been written whole again. */
  private static final int TICKS_A_TURN = 60;

  private static final RecordChanges CHANGES = RecordChanges.of(CupState.class);

  private final Sql sql;

  /** The whole records as they lie on the disk; empty at first, so that all are written anew. */
  private Map<String, CupState> whole = new TreeMap<>();

  private Map<String, CupState> wholeOnceCommitted = new TreeMap<>();

  KeptState(Sql sql) {
    this.sql = sql;
  }

  /** The number of the last tick; 0 before the first. */
  long tick() throws SQLException {
    return sql.number("SELECT tick FROM state");
  }

  /** Writes it; {@link #committed} must follow once the disk has it. */
  void put(long tick, Instant at, BenchState state) throws SQLException {
    Map<String, CupState> next = new TreeMap<>(whole);
    if (whole.isEmpty()) {
      sql.update("DELETE FROM cup");
    }
    for (String name : whole.keySet()) {
      if (!state.cups().containsKey(name)) {
        sql.update("DELETE FROM cup WHERE name = ?", name);
        next.remove(name);
      }
    }
    try {
      int place = 0;
      for (Map.Entry<String, CupState> cup : state.cups().entrySet()) {
        boolean itsTurn = place++ % TICKS_A_TURN == tick % TICKS_A_TURN;
        if (itsTurn || !next.containsKey(cup.getKey())) {
          byte[] body = Cbor.MAPPER.writeValueAsBytes(cup.getValue());
          sql.update(
              "INSERT INTO cup (name, body, crc) VALUES (?, ?, ?)"
                  + " ON CONFLICT (name) DO UPDATE SET body = excluded.body, crc = excluded.crc",
              cup.getKey(),
              body,
              Checksum.of(cup.getKey(), body));
          next.put(cup.getKey(), cup.getValue());
        }
      }
      byte[] body = changes(next, state);
      sql.update(
          "INSERT OR REPLACE INTO state (id, tick, at, body, crc) VALUES (1, ?, ?, ?, ?)",
          tick,
          at.toString(),
          body,
          Checksum.of(tick + " " + at, body));
    } catch (IOException e) {
      throw new IllegalStateException("a state cannot be written", e);
    }
    wholeOnceCommitted = next;
  }

  private static byte[] changes(Map<String, CupState> whole, BenchState state) throws IOException {
    try (ByteArrayBuilder bytes = new ByteArrayBuilder();
        JsonGenerator to = Cbor.MAPPER.createGenerator(bytes)) {
      to.writeStartObject();
      to.writeFieldName("bench");
      to.writePOJO(state.over(Collections.emptySortedMap(), state.air(), state.tanks()));
      to.writeFieldName("cups");
      to.writeStartObject();
      for (Map.Entry<String, CupState> cup : state.cups().entrySet()) {
        to.writeFieldName(cup.getKey());
        CHANGES.write(whole.get(cup.getKey()), cup.getValue(), to);
      }
      to.writeEndObject();
      to.writeEndObject();
      to.flush();
      return bytes.toByteArray();
    }
  }

  /** What was put last is on the disk. */
  void committed() {
    whole = wholeOnceCommitted;
  }

  /**
   * A row's bytes.
   *
   * @param crc null where it was written without
   */
  record Row(byte[] body, Long crc) {
    private static Row of(ResultSet row, int body, int crc) throws SQLException {
      long number = row.getLong(crc);
      boolean without = row.wasNull(); // Of what was got last.
      return new Row(row.getBytes(body), without ? null : number);
    }

    /** The bytes, if they are those that were written with that name. */
    byte[] whole(String name) throws IOException {
      if (body == null || (crc != null && crc != Checksum.of(name, body))) {
        throw new IOException("the record of " + name + " was changed on the disk");
      }
      return body;
    }
  }

  /** As it is on the disk. */
  record Raw(long tick, String at, Row bench, Map<String, Row> cups) {
    /**
     * The state in it.
     *
     * @throws JournalException when it is damaged, or this program does not understand it
     */
    Journal.Restored restored() throws JournalException {
      try {
        JsonNode tree = Cbor.MAPPER.readTree(bench.whole(tick + " " + at));
        JsonNode changes = tree.path("cups");
        if (!(tree.get("bench") instanceof ObjectNode own) || changes.size() != cups.size()) {
          throw new IOException("its parts do not belong together");
        }
        FlatState.benchIntoRooms(own);
        BenchState rest = Cbor.MAPPER.treeToValue(own, BenchState.class);
        TreeMap<String, CupState> read = new TreeMap<>();
        for (Map.Entry<String, Row> cup : cups.entrySet()) {
          byte[] whole = cup.getValue().whole(cup.getKey());
          read.put(cup.getKey(), cup(cup.getKey(), whole, changes.get(cup.getKey())));
        }
        return new Journal.Restored(
            tick,
            Instant.parse(at),
            rest.over(Collections.unmodifiableSortedMap(read), rest.air(), rest.tanks()));
      } catch (IOException | RuntimeException e) {
        // Damage may show as anything that a reader or a record's own checks throw.
        throw JournalException.unreadableState(e);
      }
    }

    private static CupState cup(String name, byte[] whole, JsonNode changes) throws IOException {
      if (changes == null || !(Cbor.MAPPER.readTree(whole) instanceof ObjectNode record)) {
        throw new IOException("it misses a part of " + name);
      }
      RecordChanges.putInto(record, changes);
      FlatState.cupIntoRooms(record);
      return Cbor.MAPPER.treeToValue(record, CupState.class);
    }
  }

  /** What is on the disk; none before the first tick. */
  Optional<Raw> read() throws SQLException {
    Map<String, Row> cups = new TreeMap<>();
    sql.list(
        "SELECT name, body, crc FROM cup", row -> cups.put(row.getString(1), Row.of(row, 2, 3)));
    return sql.first(
        "SELECT tick, at, body, crc FROM state",
        row -> new Raw(row.getLong(1), row.getString(2), Row.of(row, 3, 4), cups));
  }
}
