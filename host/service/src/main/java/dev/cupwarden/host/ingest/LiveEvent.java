package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.host.store.Readings.Reading;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Something new that is stored, for whoever is looking. Its JSON is written when somebody does:
 * most of the time nobody is, and of a large bench there are thousands in a second.
 */
public final class LiveEvent {
  private static final String MASS = "/mass";

  private final String name;
  private final Supplier<JsonNode> data;

  private LiveEvent(String name, Supplier<JsonNode> data) {
    this.name = name;
    this.data = data;
  }

  /**
   * {@code cup}, {@code cup-gone}, {@code weight}, {@code bench}, {@code setup}, {@code presence},
   * {@code event}, {@code receipt} or {@code host}.
   */
  public String name() {
    return name;
  }

  /** The data, one object. */
  public String json() {
    return Json.written(data.get());
  }

  static LiveEvent of(BenchMessage.Cup said) {
    return new LiveEvent(
        "cup", () -> of((BenchMessage) said).set("cup", Json.MAPPER.valueToTree(said.status())));
  }

  static LiveEvent of(BenchMessage.CupGone said) {
    return new LiveEvent("cup-gone", () -> of((BenchMessage) said).put("cup", said.cup()));
  }

  static LiveEvent of(BenchMessage.Bench said) {
    return new LiveEvent(
        "bench",
        () -> of((BenchMessage) said).set("status", Json.MAPPER.valueToTree(said.status())));
  }

  static LiveEvent of(BenchMessage.SetUp said) {
    return new LiveEvent(
        "setup", () -> of((BenchMessage) said).set("setup", Json.MAPPER.valueToTree(said.setup())));
  }

  static LiveEvent of(BenchMessage.Here said) {
    return new LiveEvent(
        "presence",
        () -> of((BenchMessage) said).set("presence", Json.MAPPER.valueToTree(said.presence())));
  }

  static LiveEvent of(BenchMessage.Happened said) {
    return new LiveEvent(
        "event", () -> of((BenchMessage) said).set("event", Json.MAPPER.valueToTree(said.event())));
  }

  /** An event of the host's own. */
  public static LiveEvent event(String bench, Event event) {
    return new LiveEvent(
        "event",
        () ->
            Json.MAPPER
                .createObjectNode()
                .put("bench", bench)
                .set("event", Json.MAPPER.valueToTree(event)));
  }

  /** How the host itself is. */
  public static LiveEvent host(Object state) {
    return new LiveEvent("host", () -> Json.MAPPER.valueToTree(state));
  }

  static LiveEvent of(BenchMessage.Answered said) {
    return new LiveEvent(
        "receipt",
        () -> of((BenchMessage) said).set("receipt", Json.MAPPER.valueToTree(said.receipt())));
  }

  /** A weight, if the reading is one; its time in epoch seconds, as in the curve it goes on. */
  static Optional<LiveEvent> of(Reading reading) {
    if (!reading.name().endsWith(MASS)) {
      return Optional.empty();
    }
    return Optional.of(new LiveEvent("weight", () -> weight(reading)));
  }

  private static ObjectNode weight(Reading reading) {
    return Json.MAPPER
        .createObjectNode()
        .put("bench", reading.bench())
        .put("cup", reading.name().substring(0, reading.name().length() - MASS.length()))
        .put("at", Elapsed.epochSeconds(reading.at()))
        .put("mass_g", reading.value());
  }

  private static ObjectNode of(BenchMessage said) {
    return Json.MAPPER.createObjectNode().put("bench", said.bench());
  }
}
