package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** Orders from when they came until a tick takes them. All in the transaction of whoever calls. */
final class Inbox {
  private final Sql sql;

  Inbox(Sql sql) {
    this.sql = sql;
  }

  /** Puts an order where the next tick finds it, unless its id was used before. */
  Outbox.Reception receive(String id, Instant received, Instant expires, String body)
      throws SQLException {
    Optional<String> before =
        sql.first("SELECT body FROM inbox WHERE id = ?", row -> row.getString(1), id);
    if (before.isPresent()) {
      return before.get().equals(body) ? Outbox.Reception.SAME_AGAIN : Outbox.Reception.REPEATED;
    }
    sql.update(
        "INSERT INTO inbox (id, received, expires, body) VALUES (?, ?, ?, ?)",
        id,
        received.toString(),
        expires.toString(),
        body);
    return Outbox.Reception.NEW;
  }

  /** How many no tick has taken yet. */
  long count() throws SQLException {
    return sql.number("SELECT count(*) FROM inbox WHERE taken_tick IS NULL");
  }

  /** Those that no tick has taken, in the order they came. */
  List<JsonNode> waiting() throws SQLException {
    return sql.list(
        "SELECT body FROM inbox WHERE taken_tick IS NULL ORDER BY rowid",
        row -> json(row.getString(1)));
  }

  private static JsonNode json(String text) throws SQLException {
    try {
      return Json.MAPPER.readTree(text);
    } catch (JsonProcessingException e) {
      throw new SQLException("an order in the journal is not JSON", e);
    }
  }

  /** A tick takes them. */
  void take(long tick, List<String> ids) throws SQLException {
    for (String id : ids) {
      sql.update("UPDATE inbox SET taken_tick = ? WHERE id = ?", tick, id);
    }
  }
}
