package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Readings.Reading;
import java.util.Optional;

/**
 * Something new that is stored, for whoever is looking.
 *
 * @param name {@code cup}, {@code cup-gone}, {@code weight}, {@code bench}, {@code setup}, {@code
 *     presence}, {@code event} or {@code receipt}
 * @param json the data, one object
 */
public record LiveEvent(String name, String json) {
  private static final String MASS = "/mass";

  static LiveEvent of(Said.Cup said) {
    return of("cup", of((Said) said).set("cup", Json.MAPPER.valueToTree(said.status())));
  }

  static LiveEvent of(Said.CupGone said) {
    return of("cup-gone", of((Said) said).put("cup", said.cup()));
  }

  static LiveEvent of(Said.Bench said) {
    return of("bench", of((Said) said).set("status", Json.MAPPER.valueToTree(said.status())));
  }

  static LiveEvent of(Said.SetUp said) {
    return of("setup", of((Said) said).set("setup", Json.MAPPER.valueToTree(said.setup())));
  }

  static LiveEvent of(Said.Here said) {
    return of(
        "presence", of((Said) said).set("presence", Json.MAPPER.valueToTree(said.presence())));
  }

  static LiveEvent of(Said.Happened said) {
    return of("event", of((Said) said).set("event", Json.MAPPER.valueToTree(said.event())));
  }

  /** An event of the host's own. */
  public static LiveEvent event(String bench, Event event) {
    ObjectNode data = Json.MAPPER.createObjectNode().put("bench", bench);
    return of("event", data.set("event", Json.MAPPER.valueToTree(event)));
  }

  static LiveEvent of(Said.Answered said) {
    return of("receipt", of((Said) said).set("receipt", Json.MAPPER.valueToTree(said.receipt())));
  }

  /** A weight, if the reading is one; its time in epoch seconds, as in the curve it goes on. */
  static Optional<LiveEvent> of(Reading reading) {
    if (!reading.name().endsWith(MASS)) {
      return Optional.empty();
    }
    String cup = reading.name().substring(0, reading.name().length() - MASS.length());
    return Optional.of(
        of(
            "weight",
            Json.MAPPER
                .createObjectNode()
                .put("bench", reading.bench())
                .put("cup", cup)
                .put("at", reading.at().toEpochMilli() / 1000.0)
                .put("mass_g", reading.value())));
  }

  private static ObjectNode of(Said said) {
    return Json.MAPPER.createObjectNode().put("bench", said.bench());
  }

  private static LiveEvent of(String name, JsonNode data) {
    try {
      return new LiveEvent(name, Json.MAPPER.writeValueAsString(data));
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("a tree cannot be written", impossible);
    }
  }
}
