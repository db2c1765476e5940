package dev.cupwarden.host.ingest;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.RejectedMessages.RejectedRow;
import dev.cupwarden.host.store.Store;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SetAsideTest {
  @TempDir Path folder;

  @Test
  void malformedMessagesAreCountedAndKeptAsideWhileTheGoodOnesAreStored() throws Exception {
    Topics topics = new Topics("sill");
    CountDownLatch acknowledged = new CountDownLatch(4);
    try (Store store = Store.open(Database.sqlite(folder.resolve("host.db")));
        Ingest ingest =
            new Ingest(
                store,
                InstantSource.fixed(EIGHT),
                live -> {},
                (topic, payload) -> {},
                (handle, bench, before, notice) -> {})) {
      for (byte[] payload :
          List.of(
              new byte[1_000_000],
              "{\"epoch\":".getBytes(StandardCharsets.UTF_8),
              new byte[] {(byte) 0xc3, 0x28},
              Json.MAPPER.writeValueAsBytes(Spoken.dose("e", 1, "A1", EIGHT)))) {
        ingest.receive(new Delivery(topics.events(), payload, false, acknowledged::countDown));
      }
      ingest.start();
      assertTrue(acknowledged.await(20, TimeUnit.SECONDS));
      assertEquals(1, store.events().kept("sill", "e"));
      List<RejectedRow> aside = store.rejectedMessages().newest(10);
      assertEquals(3, aside.size());
      assertTrue(aside.stream().allMatch(row -> row.topic().equals(topics.events())));
      assertTrue(aside.stream().anyMatch(row -> row.reason().contains("1000000 bytes")));
      assertTrue(aside.stream().allMatch(row -> row.head().length() <= 512));
    }
  }
}
