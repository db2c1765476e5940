package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;

/** What the host's HTTP API tells a grower of one bench, and takes from them. */
final class GrowersPage {
  private static final Duration LOOK = Duration.ofMillis(10);
  private static final Duration PATIENCE = Duration.ofMinutes(2);
  private static final int MOST_EVENTS = 2_000;
  private final HttpClient http = HttpClient.newHttpClient();
  private final URI benches;
  private final URI bench;

  GrowersPage(String address, String bench) {
    this.benches = URI.create(address).resolve("/api/benches");
    this.bench = URI.create(address).resolve("/api/benches/" + bench + "/");
  }

  JsonNode cups() {
    return get("cups");
  }

  JsonNode alerts() {
    return get("alerts");
  }

  JsonNode tanks() {
    return get("tanks");
  }

  /** All events of the bench from then until then, oldest first. */
  List<JsonNode> events(Instant from, Instant to) {
    List<JsonNode> all = new ArrayList<>();
    for (Instant day = from; day.isBefore(to); day = day.plus(Duration.ofDays(1))) {
      JsonNode some =
          get("events?limit=%d&from=%s&to=%s".formatted(MOST_EVENTS, day, day.plusSeconds(86_400)));
      if (some.size() >= MOST_EVENTS) {
        throw new AssertionError("more events on " + day + " than one answer holds");
      }
      some.forEach(all::add);
    }
    all.sort(Comparator.comparingLong(event -> event.get("seq").asLong()));
    return all;
  }

  /** Sends an order; returns its id. */
  String order(ObjectNode order) {
    HttpRequest request =
        HttpRequest.newBuilder(bench.resolve("orders"))
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(order.toString()))
            .build();
    return answer(request).get("id").asText();
  }

  /** Outcome of an order: {@code done}, {@code refused} with its reason, or empty. */
  String outcome(String id) {
    for (JsonNode order : get("orders")) {
      if (order.get("id").asText().equals(id)) {
        JsonNode receipts = order.get("receipts");
        JsonNode last = receipts.path(receipts.size() - 1);
        return last.path("outcome").asText() + last.path("why").asText();
      }
    }
    return "";
  }

  /** Waits until the host has heard of the bench as it was then. */
  void heardOf(Instant at) {
    if (!until(PATIENCE, () -> !statusAt().isBefore(at))) {
      throw new AssertionError("the host has not heard of " + at + " but of " + statusAt());
    }
  }

  private Instant statusAt() {
    for (JsonNode each : answer(HttpRequest.newBuilder(benches).build())) {
      if (each.path("status").has("at")) {
        return Instant.parse(each.at("/status/at").asText());
      }
    }
    return Instant.EPOCH;
  }

  /** Whether it came to be so within that real time. */
  static boolean until(Duration patience, BooleanSupplier condition) {
    long end = System.nanoTime() + patience.toNanos();
    while (!condition.getAsBoolean()) {
      if (System.nanoTime() > end || Thread.currentThread().isInterrupted()) {
        return false;
      }
      LockSupport.parkNanos(LOOK.toNanos());
    }
    return true;
  }

  JsonNode get(String path) {
    return answer(HttpRequest.newBuilder(bench.resolve(path)).build());
  }

  private JsonNode answer(HttpRequest request) {
    try {
      HttpResponse<String> response = http.send(request, HttpResponse.BodyHandlers.ofString());
      assertEquals(200, response.statusCode(), request.uri() + ": " + response.body());
      return Json.MAPPER.readTree(response.body());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while asking " + request.uri(), e);
    }
  }
}
