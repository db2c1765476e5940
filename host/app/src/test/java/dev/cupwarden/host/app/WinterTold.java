package dev.cupwarden.host.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** What a winter's bench told its host, as the host's API gives it. */
final class WinterTold {
  private final List<JsonNode> events;

  WinterTold(List<JsonNode> events) {
    this.events = events;
  }

  List<JsonNode> all() {
    return events;
  }

  List<JsonNode> of(String kind) {
    return events.stream().filter(event -> event.get("kind").asText().equals(kind)).toList();
  }

  /** Passes of a cup within a time; of every cup for null. */
  List<JsonNode> doses(String cup, Instant from, Instant to) {
    return of("dose").stream()
        .filter(event -> cup == null || event.at("/data/cup").asText().equals(cup))
        .filter(event -> !at(event).isBefore(from) && at(event).isBefore(to))
        .toList();
  }

  /** When an alert first took that state after a time; cup null: of the whole bench. */
  Optional<Instant> first(String code, String cup, String state, Instant after) {
    return of("alert").stream()
        .filter(event -> !at(event).isBefore(after))
        .filter(event -> event.at("/data/code").asText().equals(code))
        .filter(event -> event.at("/data/state").asText().equals(state))
        .filter(event -> event.get("data").path("cup").asText("").equals(cup == null ? "" : cup))
        .map(WinterTold::at)
        .findFirst();
  }

  /** When a person took a cup off the bench for good. */
  Optional<Instant> retired(String cup) {
    return of("change").stream()
        .filter(event -> event.at("/data/order/kind").asText().equals("retire"))
        .filter(event -> event.at("/data/order/cup").asText().equals(cup))
        .map(WinterTold::at)
        .findFirst();
  }

  static Instant at(JsonNode event) {
    return Instant.parse(event.get("at").asText());
  }

  static double ml(JsonNode event) {
    return event.at("/data/plain_ml").asDouble() + event.at("/data/feed_ml").asDouble();
  }
}
