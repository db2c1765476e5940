package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.orders.OrderException;
import dev.cupwarden.host.orders.OrderService;
import dev.cupwarden.host.store.Orders.Followed;
import dev.cupwarden.host.store.Orders.ReceiptRow;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;

/** Orders given, and followed to their receipts. */
final class OrderRoutes {
  private static final int RECENT = 50;
  private static final int MOST_RECENT = 500;

  private final Store store;
  private final OrderService desk;

  OrderRoutes(Store store, OrderService desk) {
    this.store = store;
    this.desk = desk;
  }

  void add(RoutesConfig routes) {
    routes.post("/api/benches/{bench}/orders", this::place);
    routes.get("/api/benches/{bench}/orders", this::recent);
  }

  private void place(Context context) {
    try {
      JsonNode order = RequestParameters.json(context.body(), "An order is a JSON object");
      String id = desk.place(context.pathParam("bench"), order, Caller.nameOf(context));
      JsonResponse.json(context, Json.MAPPER.createObjectNode().put("id", id));
    } catch (OrderException refused) {
      throw new ApiException(statusOf(refused.because()), refused.getMessage());
    }
  }

  private static HttpStatus statusOf(OrderException.Problem cause) {
    return switch (cause) {
      case NOT_AN_ORDER -> HttpStatus.BAD_REQUEST;
      case NO_SUCH_BENCH -> HttpStatus.NOT_FOUND;
      case NOT_SENT -> HttpStatus.SERVICE_UNAVAILABLE;
    };
  }

  private void recent(Context context) {
    String bench = context.pathParam("bench");
    if (store.benches().find(bench).isEmpty()) {
      throw new ApiException(HttpStatus.NOT_FOUND, "There is no bench " + bench + " here.");
    }
    ArrayNode orders = Json.MAPPER.createArrayNode();
    int limit = RequestParameters.limit(context, RECENT, MOST_RECENT);
    store.orders().recent(bench, limit).forEach(followed -> orders.add(treeOf(followed)));
    JsonResponse.json(context, orders);
  }

  private static ObjectNode treeOf(Followed followed) {
    ObjectNode order = (ObjectNode) JsonResponse.stored(followed.order().body());
    ArrayNode receipts = order.putArray("receipts");
    for (ReceiptRow row : followed.receipts()) {
      receipts.add(((ObjectNode) JsonResponse.stored(row.body())).put("at", row.at().toString()));
    }
    return order;
  }
}
