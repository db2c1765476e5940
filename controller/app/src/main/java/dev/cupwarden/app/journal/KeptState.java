package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.ByteArrayBuilder;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.BenchState;
import dev.cupwarden.core.CupState;
import java.io.IOException;
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
          sql.update(
              "INSERT INTO cup VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET body = excluded.body",
              cup.getKey(),
              Cbor.MAPPER.writeValueAsBytes(cup.getValue()));
          next.put(cup.getKey(), cup.getValue());
        }
      }
      sql.update(
          "INSERT OR REPLACE INTO state VALUES (1, ?, ?, ?)",
          tick,
          at.toString(),
          changes(next, state));
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

  /** As it is on the disk. */
  record Raw(long tick, Instant at, byte[] body, Map<String, byte[]> cups) {
    /**
     * The state in it.
     *
     * @throws JournalException when this program does not understand it
     */
    BenchState state() throws JournalException {
      try {
        JsonNode tree = Cbor.MAPPER.readTree(body);
        JsonNode changes = tree.path("cups");
        if (!(tree.get("bench") instanceof ObjectNode bench) || changes.size() != cups.size()) {
          throw new IOException("its parts do not belong together");
        }
        BenchState rest = Cbor.MAPPER.treeToValue(bench, BenchState.class);
        TreeMap<String, CupState> read = new TreeMap<>();
        for (Map.Entry<String, byte[]> cup : cups.entrySet()) {
          read.put(cup.getKey(), cup(cup.getKey(), cup.getValue(), changes.get(cup.getKey())));
        }
        return rest.over(Collections.unmodifiableSortedMap(read), rest.air(), rest.tanks());
      } catch (IOException e) {
        throw JournalException.unreadableState(e);
      }
    }

    private static CupState cup(String name, byte[] whole, JsonNode changes) throws IOException {
      if (changes == null || !(Cbor.MAPPER.readTree(whole) instanceof ObjectNode record)) {
        throw new IOException("it misses a part of " + name);
      }
      RecordChanges.putInto(record, changes);
      return Cbor.MAPPER.treeToValue(record, CupState.class);
    }
  }

  /** What is on the disk; none before the first tick. */
  Optional<Raw> read() throws SQLException {
    Map<String, byte[]> cups = new TreeMap<>();
    sql.list("SELECT name, body FROM cup", row -> cups.put(row.getString(1), row.getBytes(2)));
    return sql.first(
        "SELECT tick, at, body FROM state",
        row -> new Raw(row.getLong(1), Instant.parse(row.getString(2)), row.getBytes(3), cups));
  }
}
