package dev.cupwarden.host.ingest;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.PostgresqlServer;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** Two hosts that store the same words of the same benches, each in an order of its own. */
class SharedStoreTest {
  private static final int ROUNDS = 10;
  private static final int BENCHES = 60;

  private final LinkedBlockingQueue<Exception> refused = new LinkedBlockingQueue<>();

  @Test
  void noneWaitsForTheOtherInACircle() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start();
        Store one = Store.open(server.database());
        Store other = Store.open(server.database())) {
      for (int round = 0; round < ROUNDS; round++) {
        List<Message> words = words(EIGHT.plusSeconds(round * 300L), round);
        List<Message> backwards = new ArrayList<>(words);
        Collections.reverse(backwards);
        CountDownLatch acknowledged = new CountDownLatch(2 * words.size());
        try (Ingest first = ingest(one, words, acknowledged);
            Ingest second = ingest(other, backwards, acknowledged)) {
          first.start();
          second.start();
          assertTrue(acknowledged.await(60, TimeUnit.SECONDS));
        }
        assertEquals(List.of(), List.copyOf(refused), "round " + round);
      }
      assertEquals(ROUNDS, one.events().kept("bench-7", "e"));
      assertEquals(List.of(), one.rejectedMessages().newest(1));
    }
  }

  private record Message(String topic, byte[] payload) {}

  private static List<Message> words(Instant at, int round) throws IOException {
    List<Message> words = new ArrayList<>();
    for (int i = 0; i < BENCHES; i++) {
      String bench = "bench-" + i;
      Topics topics = new Topics(bench);
      words.add(message(topics.readings(), Spoken.pack(bench, at, "A1", 310.0)));
      words.add(message(topics.cup("A1"), Spoken.cup("A1", at, 310.0)));
      words.add(message(topics.benchStatus(), Spoken.bench(at)));
      words.add(message(topics.events(), Spoken.dose("e", round + 1, "A1", at)));
    }
    return words;
  }

  private static Message message(String topic, Object said) throws IOException {
    return new Message(topic, Json.MAPPER.writeValueAsBytes(said));
  }

  private Ingest ingest(Store store, List<Message> words, CountDownLatch acknowledged)
      throws InterruptedException {
    Ingest ingest =
        new Ingest(
            store,
            InstantSource.fixed(EIGHT),
            live -> {},
            (topic, payload) -> {},
            (handle, bench, before, notice) -> {},
            (bench, beat) -> {},
            refused::add);
    for (Message word : words) {
      ingest.receive(new Delivery(word.topic(), word.payload(), false, acknowledged::countDown));
    }
    return ingest;
  }
}
