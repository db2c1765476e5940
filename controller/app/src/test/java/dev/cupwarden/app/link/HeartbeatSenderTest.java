package dev.cupwarden.app.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.service.LoopProgress;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.messages.Topics;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Signs of life, and of another who lives under the same name. */
class HeartbeatSenderTest {
  private static final Instant NOW = Instant.parse("2027-01-10T08:00:00Z");
  private static final Topics TOPICS = new Topics("back-room");
  private static final Duration SOON = Duration.ofSeconds(30);

  @TempDir Path folder;

  private ControllerMqttLink link(RealBroker broker, String name, LoopProgress progress)
      throws Exception {
    Path home = Files.createDirectories(folder.resolve(name));
    Journal journal = Journal.open(home.resolve("journal.db"));
    return ControllerMqttLink.start(
        BrokerSettings.open(broker.uri()),
        TOPICS,
        Outbox.of(journal),
        () -> NOW.plusNanos(System.nanoTime()),
        progress);
  }

  @Test
  void aBeatTellsWhatTheLoopNotedAndIsNotKept() throws Exception {
    LoopProgress progress = new LoopProgress(Duration.ofMinutes(5), 2);
    progress.finished();
    progress.at(Beat.Doing.DECIDING);
    try (RealBroker broker = RealBroker.start(folder);
        Listener host = new Listener(broker.uri());
        ControllerMqttLink link = link(broker, "one", progress)) {
      assertTrue(link.awaitBeat(SOON));
      Awaitility.await("a beat").atMost(SOON).until(() -> !host.on(TOPICS.beat()).isEmpty());
      Listener.Heard heard = host.on(TOPICS.beat()).get(0);
      Schemas.assertFits("beat", heard.body());
      assertFalse(heard.retained());
      assertEquals(1, heard.body().get("tick").asLong());
      assertEquals("deciding", heard.body().get("doing").asText());
      assertEquals(2, heard.body().get("starts_in_vain").asInt());
      assertEquals(300.0, heard.body().get("period_s").asDouble());
      try (Listener late = new Listener(broker.uri())) {
        Awaitility.await("presence").until(() -> !late.on(TOPICS.presence()).isEmpty());
        assertTrue(late.on(TOPICS.beat()).isEmpty(), "no life of the past");
      }
    }
  }

  @Test
  void twoOfOneNameAreKnownToBothByTheTakeovers() throws Exception {
    try (RealBroker broker = RealBroker.start(folder);
        ControllerMqttLink one = link(broker, "one", new LoopProgress(Duration.ofMinutes(5), 0))) {
      Awaitility.await().atMost(SOON).until(one::isOnline);
      assertFalse(one.hasRival());
      try (ControllerMqttLink two =
          link(broker, "two", new LoopProgress(Duration.ofMinutes(5), 0))) {
        Awaitility.await("both know").atMost(SOON).until(() -> one.hasRival() && two.hasRival());
      }
    }
  }

  @Test
  void oneSignIsNoProofAndThreeAre() {
    NameConflictDetector conflicts = new NameConflictDetector("us");
    conflicts.takenOver(0);
    conflicts.takenOver(1);
    assertFalse(conflicts.any(2));
    conflicts.takenOver(2);
    assertTrue(conflicts.any(3));
    assertFalse(conflicts.any(TimeUnit.MINUTES.toNanos(16)), "long ago");
  }

  @Test
  void ourOwnBeatsAndPresenceAreNoSignNorWhatWasSaidBeforeWeCame() {
    NameConflictDetector conflicts = new NameConflictDetector("us");
    byte[] before = "before".getBytes(StandardCharsets.UTF_8);
    byte[] ours = "ours".getBytes(StandardCharsets.UTF_8);
    conflicts.says(ours);
    for (int i = 0; i < 5; i++) {
      conflicts.presence(before, i);
    }
    for (int i = 0; i < 5; i++) {
      conflicts.presence(ours, i);
      conflicts.beat(beatOf("us"), i);
      conflicts.beat(before, i);
    }
    assertFalse(conflicts.any(9));
    conflicts.beat(beatOf("them"), 9);
    conflicts.presence(before, 9);
    conflicts.presence(before, 9);
    assertTrue(conflicts.any(10));
  }

  private static byte[] beatOf(String instance) {
    return Json.written(new Beat(NOW, instance, 1, Beat.Doing.WAITING, 1, 300, 0))
        .getBytes(StandardCharsets.UTF_8);
  }
}
