package dev.cupwarden.host.ingest;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.PostgresqlServer;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Events that a journal holds and the host cannot read: they are told again for ever. */
class UnreadableEventTest {
  private static final Topics SILL = new Topics("sill");
  private static final String LONG_ID = "o".repeat(65);
  @TempDir Path folder;
  private final BlockingQueue<Kept> marks = new LinkedBlockingQueue<>();

  private static ObjectNode event(long seq) {
    return Json.MAPPER.valueToTree(Spoken.dose("e", seq, "A1", EIGHT));
  }

  private static ObjectNode receipt(long seq) {
    ObjectNode event = event(seq).put("kind", "receipt");
    event.set("data", Json.MAPPER.valueToTree(Receipt.done(LONG_ID)));
    return event;
  }

  private void marked(String topic, byte[] payload) {
    try {
      marks.add(Json.MAPPER.readValue(payload, Kept.class));
    } catch (IOException broken) {
      throw new IllegalStateException(broken);
    }
  }

  private void storyOf(Store store) throws Exception {
    List<ObjectNode> journal =
        List.of(
            event(1),
            event(2).put("cup", "A1\n"),
            receipt(3),
            event(4).put("at", "soon"),
            event(5).put("later", "a field of a newer program"),
            event(6));
    try (Ingest ingest =
        new Ingest(
            store,
            InstantSource.fixed(EIGHT),
            live -> {},
            this::marked,
            (handle, bench, before, notice) -> {})) {
      for (ObjectNode each : journal) {
        byte[] payload = each.toString().getBytes(StandardCharsets.UTF_8);
        ingest.receive(new Delivery(SILL.events(), payload, false, () -> {}));
      }
      ingest.start();
      long mark = 0;
      while (mark < 6) {
        Kept kept = marks.poll(20, TimeUnit.SECONDS);
        assertTrue(
            kept != null, "the mark stood still at " + mark + "; it had stood at 1 for good");
        mark = kept.seq();
      }
      assertEquals(4, ingest.counts().malformed());
    }
    assertEquals(4, store.rejectedMessages().count());
    String told =
        store
            .events()
            .find(new Search("sill", null, "change", EIGHT, EIGHT.plusSeconds(1), 10))
            .toString();
    for (String part : List.of("Event 2 could not be read: cup", "Event 3", "Event 4", "Event 5")) {
      assertTrue(told.contains(part), told);
    }
  }

  @Test
  void theyAreSetAsideAndTheMarkGoesOn() throws Exception {
    try (Store store = Store.open(Database.sqlite(folder.resolve("host.db")))) {
      storyOf(store);
    }
  }

  @Test
  void likewiseOnPostgresql() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start();
        Store store = Store.open(server.database())) {
      storyOf(store);
    }
  }
}
