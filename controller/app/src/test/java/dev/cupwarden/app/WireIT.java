package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.link.RealBroker;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.messages.Topics;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The real jar, heard by the broker's own command-line client. */
class WireIT {
  private static final Duration SOON = Duration.ofSeconds(90);
  private static final Topics TOPICS = new Topics("back-room");

  /** The window opens then: in the evening no cup would be watered for hours. */
  private static final String MORNING = "2026-11-28T08:30:00Z";

  @TempDir Path folder;

  private record Heard(String topic, JsonNode body) {}

  private List<Heard> heard() throws IOException {
    List<Heard> all = new ArrayList<>();
    String text = Files.readString(folder.resolve("heard"));
    for (String line : text.substring(0, text.lastIndexOf('\n') + 1).lines().toList()) {
      int space = line.indexOf(' ');
      all.add(new Heard(line.substring(0, space), Json.MAPPER.readTree(line.substring(space + 1))));
    }
    return all;
  }

  private boolean heardOn(String topic, String word) throws IOException {
    return heard().stream()
        .anyMatch(one -> one.topic().equals(topic) && one.body().toString().contains(word));
  }

  private Process listen(RealBroker broker) throws IOException {
    return new ProcessBuilder(
            "mosquitto_sub",
            "-V",
            "mqttv5",
            "-h",
            "127.0.0.1",
            "-p",
            String.valueOf(broker.port()),
            "-q",
            "1",
            "-t",
            Topics.everything(),
            "-F",
            "%t %p")
        .redirectOutput(folder.resolve("heard").toFile())
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  private void order(RealBroker broker, String body) throws Exception {
    Process told =
        new ProcessBuilder(
                "mosquitto_pub",
                "-V",
                "mqttv5",
                "-h",
                "127.0.0.1",
                "-p",
                String.valueOf(broker.port()),
                "-q",
                "1",
                "-t",
                TOPICS.orders(),
                "-m",
                body)
            .inheritIO()
            .start();
    assertTrue(told.waitFor(10, TimeUnit.SECONDS));
    assertEquals(0, told.exitValue());
  }

  private static void await(String what, Callable<Boolean> isSo) {
    Awaitility.await(what).atMost(SOON).until(isSo);
  }

  private Instant benchTime() throws IOException {
    return heard().stream()
        .filter(one -> one.topic().equals(TOPICS.benchStatus()))
        .map(one -> Instant.parse(one.body().get("at").asText()))
        .reduce((first, second) -> second)
        .orElseThrow();
  }

  @Test
  void everyMessageFitsItsSchemaAndAnOrderIsAnswered() throws Exception {
    try (RealBroker broker = RealBroker.start(folder)) {
      Process listener = listen(broker);
      try (ControllerProcess run =
          ControllerProcess.start(
              folder,
              "--seed",
              "7",
              "--dried-for",
              "9",
              "--begins",
              MORNING,
              "--speed",
              "300",
              "--broker",
              broker.uri().toString())) {
        await("a dose", () -> heardOn(TOPICS.events(), "\"given\""));
        await("readings", () -> heardOn(TOPICS.readings(), "A1/mass"));
        await("a cup", () -> heardOn(TOPICS.cup("C4"), "elder"));
        Instant now = benchTime();
        order(
            broker,
            """
            {"id":"o-1","kind":"hold","until":"%s","by":"gardener","issued":"%s","expires":"%s"}"""
                .formatted(now.plus(Duration.ofDays(9)), now, now.plus(Duration.ofDays(1))));
        await("done", () -> heardOn(TOPICS.receipts(), "\"done\""));
        await("the hold", () -> heardOn(TOPICS.benchStatus(), "\"holds\":[\"*\"]"));
        assertTrue(run.terminate());
        await("offline", () -> heardOn(TOPICS.presence(), "offline"));
      } finally {
        listener.destroy();
        listener.waitFor(5, TimeUnit.SECONDS);
      }
    }
    assertAllFit();
  }

  private void assertAllFit() throws IOException {
    Map<String, String> schemas =
        Map.of(
            "presence", "presence",
            "beat", "beat",
            "readings", "readings",
            "bench", "bench",
            "setup", "setup",
            "events", "event",
            "receipts", "receipt",
            "orders", "order",
            "cups", "cup");
    for (Heard one : heard()) {
      String kind = one.topic().split("/", -1)[3];
      assertTrue(schemas.containsKey(kind), "no schema is known for " + one.topic());
      Schemas.assertFits(schemas.get(kind), one.body());
    }
    List<Long> seqs =
        heard().stream()
            .filter(one -> one.topic().equals(TOPICS.events()))
            .map(one -> one.body().get("seq").asLong())
            .distinct()
            .sorted()
            .toList();
    assertEquals(seqs.size(), seqs.get(seqs.size() - 1), "from 1 without a gap");
  }
}
