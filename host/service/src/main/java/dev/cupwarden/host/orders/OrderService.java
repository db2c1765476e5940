package dev.cupwarden.host.orders;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.host.orders.OrderException.Problem;
import dev.cupwarden.host.store.Orders.OrderRow;
import dev.cupwarden.host.store.Store;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/** Takes an order, keeps it, and sends it to its bench. */
public final class OrderService {
  private static final Duration LONGEST_EXPIRY = Duration.ofDays(1);
  private static final long SEND_LIMIT_S = 10;
  private static final long LEAST_QUEUED_S = 60;

  /** What a controller takes; a person's order is a tenth of that. */
  private static final int MOST_BYTES = 4_096;

  private static final List<String> NAMED = List.of("cup", "cups", "tank");
  private static final Set<String> KINDS =
      new TreeSet<>(
          Set.of(
              "hold", "flush", "add", "release", "dose", "stage", "watered", "drained", "away",
              "back", "cover", "uncover", "filled", "repot", "clear", "later", "prime", "retire",
              "forget"));

  private final Store store;
  private final InstantSource benchClock;
  private final Duration expiry;
  private final Wire wire;

  /** Sends to the broker; completes when the broker has it. */
  @FunctionalInterface
  public interface Wire {
    CompletableFuture<Void> send(String topic, byte[] payload, long expiryS);
  }

  /**
   * @param benchClock the time as the benches have it; not this machine's where time runs fast
   * @param expiry how long an order is meant, unless it says so itself
   */
  public OrderService(Store store, InstantSource benchClock, Duration expiry, Wire wire) {
    this.store = store;
    this.benchClock = benchClock;
    this.expiry = expiry;
    this.wire = wire;
  }

  /**
   * Sends an order.
   *
   * @param asked an object with {@code kind} and its fields; {@code id} and {@code expires} are
   *     made where they are missing, {@code by} and {@code issued} always
   * @param by who asks
   * @return the order's id
   * @throws OrderException if it is no order, or cannot be sent now
   */
  public String place(String bench, JsonNode asked, String by) throws OrderException {
    if (store.benches().find(bench).isEmpty()) {
      throw new OrderException(Problem.NO_SUCH_BENCH, "There is no bench " + bench + " here.");
    }
    if (!asked.isObject()) {
      throw new OrderException(Problem.NOT_AN_ORDER, "An order is a JSON object with a kind.");
    }
    Instant now = benchClock.instant();
    ObjectNode order = ((ObjectNode) asked).deepCopy();
    String kind = kindOf(order);
    String id = idOf(order);
    requireNames(order);
    Instant expires = expiresOf(order, now);
    order.put("id", id).put("by", by).put("issued", now.toString());
    order.put("expires", expires.toString());
    String written = Json.written(order);
    int bytes = written.getBytes(StandardCharsets.UTF_8).length;
    if (bytes > MOST_BYTES) {
      throw new OrderException(
          Problem.NOT_AN_ORDER,
          "An order has " + MOST_BYTES + " bytes at most; this has " + bytes + ".");
    }
    keep(new OrderRow(bench, id, kind, now, written));
    send(bench, order, Duration.between(now, expires));
    return id;
  }

  private static String kindOf(JsonNode order) throws OrderException {
    JsonNode kind = order.path("kind");
    if (!kind.isTextual() || !KINDS.contains(kind.textValue())) {
      throw new OrderException(
          Problem.NOT_AN_ORDER, "kind: expected one of " + String.join(", ", KINDS) + ".");
    }
    return kind.textValue();
  }

  private static String idOf(JsonNode order) throws OrderException {
    if (!order.has("id")) {
      return "o-" + UUID.randomUUID();
    }
    String id = order.get("id").asText();
    if (!order.get("id").isTextual() || !Names.isId(id)) {
      throw new OrderException(Problem.NOT_AN_ORDER, "id: " + Names.ID_RULE + ".");
    }
    return id;
  }

  /** What no cup or tank can be called is not sent: the bench would put it into its journal. */
  private static void requireNames(JsonNode order) throws OrderException {
    for (String field : NAMED) {
      JsonNode named = order.path(field);
      boolean several = field.equals("cups") && named.isArray();
      for (JsonNode name : several ? named : List.of(named)) {
        if (name.isMissingNode() || name.isNull()) {
          continue;
        }
        if (!name.isTextual() || !Names.isSafe(name.textValue())) {
          throw new OrderException(Problem.NOT_AN_ORDER, field + ": " + Names.RULE + ".");
        }
      }
    }
  }

  private Instant expiresOf(JsonNode order, Instant now) throws OrderException {
    if (!order.has("expires")) {
      return now.plus(expiry);
    }
    Instant latest = now.plus(LONGEST_EXPIRY);
    try {
      Instant expires = Instant.parse(order.get("expires").asText());
      if (expires.isAfter(now) && !expires.isAfter(latest)) {
        return expires;
      }
    } catch (DateTimeParseException notATime) {
      throw new OrderException(
          Problem.NOT_AN_ORDER, "expires: expected a time such as 2027-02-14T08:00:00Z.");
    }
    throw new OrderException(
        Problem.NOT_AN_ORDER, "expires: expected a time between " + now + " and " + latest + ".");
  }

  private void keep(OrderRow order) throws OrderException {
    boolean[] isNew = new boolean[1];
    store.write(handle -> isNew[0] = store.orders().insert(handle, order));
    if (!isNew[0]) {
      throw new OrderException(
          Problem.NOT_AN_ORDER, "id: " + order.id() + " was used before; each order has its own.");
    }
  }

  private void send(String bench, JsonNode order, Duration meantFor) throws OrderException {
    byte[] payload = Json.written(order).getBytes(StandardCharsets.UTF_8);
    try {
      // The bench judges expiry by its own clock; this one clears the broker's queue.
      long expiryS = Math.max(LEAST_QUEUED_S, meantFor.toSeconds());
      wire.send(new Topics(bench).orders(), payload, expiryS).get(SEND_LIMIT_S, TimeUnit.SECONDS);
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new OrderException(Problem.NOT_SENT, "The host was stopped while sending.");
    } catch (ExecutionException | TimeoutException failed) {
      throw new OrderException(
          Problem.NOT_SENT,
          "The broker does not take the order now; it was kept as "
              + order.path("id").asText()
              + " but may not arrive.");
    }
  }
}
