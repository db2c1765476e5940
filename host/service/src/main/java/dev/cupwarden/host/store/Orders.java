package dev.cupwarden.host.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** What people asked of a bench, and what became of it. */
public final class Orders {
  private final Jdbi jdbi;

  Orders(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * An order.
   *
   * @param body JSON as it was sent to the bench
   */
  public record OrderRow(String bench, String id, String kind, Instant issued, String body) {}

  /**
   * A receipt.
   *
   * @param at when it was received
   * @param body JSON
   */
  public record ReceiptRow(String bench, String orderId, String outcome, Instant at, String body) {}

  /** An order with its receipts, oldest receipt first. */
  public record Followed(OrderRow order, List<ReceiptRow> receipts) {}

  /** True if it was new. */
  public boolean insert(Handle handle, OrderRow order) {
    return handle.execute(
            "INSERT INTO orders (bench, id, kind, issued_ms, body) VALUES (?, ?, ?, ?, ?)"
                + " ON CONFLICT DO NOTHING",
            order.bench(),
            order.id(),
            order.kind(),
            order.issued().toEpochMilli(),
            order.body())
        == 1;
  }

  /** True if it was new: the same receipt comes both as a receipt and as an event. */
  public boolean insert(Handle handle, ReceiptRow receipt) {
    return handle.execute(
            "INSERT INTO receipts (bench, order_id, outcome, at_ms, body) VALUES (?, ?, ?, ?, ?)"
                + " ON CONFLICT DO NOTHING",
            receipt.bench(),
            receipt.orderId(),
            receipt.outcome(),
            receipt.at().toEpochMilli(),
            receipt.body())
        == 1;
  }

  /** The newest orders of a bench, newest first. */
  public List<Followed> recent(String bench, int limit) {
    return jdbi.withHandle(
        handle -> {
          Map<String, Followed> byId = new LinkedHashMap<>();
          handle
              .createQuery(
                  "SELECT bench, id, kind, issued_ms, body FROM orders WHERE bench = ?"
                      + " ORDER BY issued_ms DESC, id LIMIT ?")
              .bind(0, bench)
              .bind(1, limit)
              .map(
                  (rows, context) ->
                      new OrderRow(
                          rows.getString(1),
                          rows.getString(2),
                          rows.getString(3),
                          Instant.ofEpochMilli(rows.getLong(4)),
                          rows.getString(5)))
              .forEach(order -> byId.put(order.id(), new Followed(order, new ArrayList<>())));
          handle
              .createQuery(
                  "SELECT r.bench, r.order_id, r.outcome, r.at_ms, r.body FROM receipts r"
                      + " JOIN (SELECT id FROM orders WHERE bench = ? ORDER BY issued_ms DESC, id"
                      + " LIMIT ?) o ON o.id = r.order_id WHERE r.bench = ? ORDER BY r.at_ms,"
                      + " r.outcome DESC")
              .bind(0, bench)
              .bind(1, limit)
              .bind(2, bench)
              .map(
                  (rows, context) ->
                      new ReceiptRow(
                          rows.getString(1),
                          rows.getString(2),
                          rows.getString(3),
                          Instant.ofEpochMilli(rows.getLong(4)),
                          rows.getString(5)))
              .forEach(receipt -> byId.get(receipt.orderId()).receipts().add(receipt));
          return List.copyOf(byId.values());
        });
  }
}
