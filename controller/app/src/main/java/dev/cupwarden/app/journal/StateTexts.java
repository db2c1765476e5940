package dev.cupwarden.app.journal;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.sql.SQLException;
import java.util.Map;

/**
 * Carries states over from schema 1, in which each was one JSON text. They are moved as they stand,
 * without being understood: what today's program makes of them is asked when they are read.
 */
final class StateTexts {
  private final Sql sql;

  StateTexts(Sql sql) {
    this.sql = sql;
  }

  /** After {@code schema-2.sql}, in its transaction. */
  void carryOver() throws SQLException {
    try {
      carryState();
      for (long row : sql.list("SELECT rowid FROM start_text ORDER BY rowid", r -> r.getLong(1))) {
        carryStart(row);
      }
    } catch (IOException e) {
      throw new SQLException("a state in it is not a JSON object", e);
    }
    sql.update("DROP TABLE state_text");
    sql.update("DROP TABLE start_text");
  }

  private void carryState() throws SQLException, IOException {
    var text = sql.first("SELECT state FROM state_text", row -> row.getString(1));
    if (text.isEmpty()) {
      return;
    }
    if (!(Json.MAPPER.readTree(text.get()) instanceof ObjectNode bench)) {
      throw new IOException("no object");
    }
    ObjectNode changes = Json.MAPPER.createObjectNode();
    for (Map.Entry<String, JsonNode> cup : bench.path("cups").properties()) {
      sql.update(
          "INSERT INTO cup VALUES (?, ?)",
          cup.getKey(),
          Cbor.MAPPER.writeValueAsBytes(cup.getValue()));
      changes.putObject(cup.getKey());
    }
    bench.putObject("cups");
    ObjectNode body = Json.MAPPER.createObjectNode();
    body.set("bench", bench);
    body.set("cups", changes);
    sql.update(
        "INSERT INTO state SELECT id, tick, at, ? FROM state_text",
        Cbor.MAPPER.writeValueAsBytes(body));
  }

  private void carryStart(long row) throws SQLException, IOException {
    String text =
        sql.first("SELECT state FROM start_text WHERE rowid = ?", r -> r.getString(1), row)
            .orElseThrow();
    sql.update(
        "INSERT INTO start SELECT first_tick, at, cause, epoch, version, bench, ?"
            + " FROM start_text WHERE rowid = ?",
        Cbor.MAPPER.writeValueAsBytes(Json.MAPPER.readTree(text)),
        row);
  }
}
