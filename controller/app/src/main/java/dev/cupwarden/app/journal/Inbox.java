package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.orders.OrderForm;
import dev.cupwarden.core.setup.Names;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * Orders from when they came until a tick takes them; never more of them than a small heap holds
 * with ease. All in the transaction of whoever calls.
 */
final class Inbox {
  /** Hundreds of orders as a person gives them, and a hundredth of the heap of a small board. */
  static final int MOST_BYTES = 256 * 1024;

  /**
   * The last quarter is kept for what stops water: a flood of other orders must not shut it out.
   */
  private static final int MOST_BYTES_OF_OTHERS = MOST_BYTES / 4 * 3;

  private static final String WAITING = "taken_tick IS NULL";
  private static final String BYTES = "length(CAST(body AS BLOB))";

  private final Sql sql;

  Inbox(Sql sql) {
    this.sql = sql;
  }

  /** Puts an order where the next tick finds it, unless its id was used before or it is full. */
  Outbox.Reception receive(
      String id, Instant received, Instant expires, String body, boolean stopsWater)
      throws SQLException {
    Optional<String> before =
        sql.first("SELECT body FROM inbox WHERE id = ?", row -> row.getString(1), id);
    if (before.isPresent()) {
      boolean same = before.get().equals(body) || before.get().equals(digest(body));
      return same ? Outbox.Reception.SAME_AGAIN : Outbox.Reception.REPEATED;
    }
    int bytes = body.getBytes(StandardCharsets.UTF_8).length;
    if (bytes() + bytes > (stopsWater ? MOST_BYTES : MOST_BYTES_OF_OTHERS)) {
      return Outbox.Reception.FULL;
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
    return sql.number("SELECT count(*) FROM inbox WHERE " + WAITING);
  }

  private long bytes() throws SQLException {
    return sql.number("SELECT sum(" + BYTES + ") FROM inbox WHERE " + WAITING);
  }

  /** Those that no tick has taken, in the order they came. */
  List<JsonNode> waiting() throws SQLException {
    return sql.list(
        "SELECT id, body FROM inbox WHERE " + WAITING + " ORDER BY rowid",
        row -> json(row.getString(1), row.getString(2)));
  }

  /** One that was damaged on the disk is still taken, by its id, and refused for what it is. */
  private static JsonNode json(String id, String text) {
    try {
      JsonNode order = Json.MAPPER.readTree(text);
      if (order.path("id").asText().equals(id)) {
        return order;
      }
    } catch (JsonProcessingException damaged) {
      return damaged(id);
    }
    return damaged(id);
  }

  private static JsonNode damaged(String id) {
    return Json.MAPPER.createObjectNode().put("id", id).put("kind", "damaged");
  }

  /** The one that has waited longest, as a name of what the next tick takes up. */
  Optional<String> oldest() throws SQLException {
    return sql.first(
        "SELECT id FROM inbox WHERE " + WAITING + " ORDER BY rowid LIMIT 1",
        row -> digest(row.getString(1)));
  }

  /**
   * A tick takes them; what they said is told elsewhere, and only whether one comes again counts.
   */
  void take(long tick, List<String> ids) throws SQLException {
    for (String id : ids) {
      Optional<String> body =
          sql.first("SELECT body FROM inbox WHERE id = ?", row -> row.getString(1), id);
      if (body.isPresent()) {
        sql.update(
            "UPDATE inbox SET taken_tick = ?, body = ? WHERE id = ?", tick, digest(body.get()), id);
      }
    }
  }

  private record Unfit(String id, String expires, long bytes) {}

  /**
   * Takes out, without reading them, those that have expired or are longer than an order may be; an
   * earlier program took longer ones.
   *
   * @return what to tell whoever gave them
   */
  List<Receipt> refuseUnfit(long tick, Instant now) throws SQLException {
    List<Unfit> unfit =
        sql.list(
            "SELECT id, expires, "
                + BYTES
                + " FROM inbox WHERE "
                + WAITING
                + " AND ("
                + BYTES
                + " > ? OR datetime(expires) <= datetime(?)) ORDER BY rowid",
            row -> new Unfit(row.getString(1), row.getString(2), row.getLong(3)),
            OrderForm.MOST_BYTES,
            now.toString());
    List<Receipt> receipts = new ArrayList<>();
    for (Unfit one : unfit) {
      sql.update("UPDATE inbox SET taken_tick = ?, body = '' WHERE id = ?", tick, one.id());
      receipts.add(
          Receipt.refused(
              Names.isId(one.id()) ? one.id() : null,
              one.bytes() > OrderForm.MOST_BYTES
                  ? "an order has at most %d bytes, this one has %d"
                      .formatted(OrderForm.MOST_BYTES, one.bytes())
                  : Sentences.expired(one.expires())));
    }
    return receipts;
  }

  private static String digest(String text) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return "sha-256 " + HexFormat.of().formatHex(hash);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }
}
