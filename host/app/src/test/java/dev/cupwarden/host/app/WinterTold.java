package dev.cupwarden.host.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

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

  /** Alerts, but for those told again in the words of before. */
  List<JsonNode> news() {
    Map<String, String> words = new TreeMap<>();
    List<JsonNode> news = new ArrayList<>();
    for (JsonNode event : of("alert")) {
      JsonNode alert = event.get("data");
      String key = alert.get("code") + "/" + alert.path("cup") + "/" + alert.path("tank");
      String says = alert.get("state") + alert.get("do").asText();
      if (!says.equals(words.put(key, says))) {
        news.add(event);
      }
    }
    return news;
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

  /** Whether that was told of a tank and stood at a time. */
  boolean stood(String code, String tank, Instant then) {
    boolean stood = false;
    for (JsonNode event : of("alert")) {
      boolean is =
          event.at("/data/code").asText().equals(code)
              && event.at("/data/tank").asText().equals(tank);
      if (is && !at(event).isAfter(then)) {
        stood = event.at("/data/state").asText().equals("raised");
      }
    }
    return stood;
  }

  static Instant at(JsonNode event) {
    return Instant.parse(event.get("at").asText());
  }

  static double ml(JsonNode event) {
    return event.at("/data/plain_ml").asDouble() + event.at("/data/feed_ml").asDouble();
  }
}
