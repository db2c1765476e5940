package dev.cupwarden.host.ingest;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Events.Gap;
import dev.cupwarden.host.store.Store;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A host that lost its store meets a bench whose first events are long gone. */
class GapTest {
  private static final Topics TOPICS = new Topics("sill");
  private final AtomicReference<Instant> now = new AtomicReference<>(EIGHT);
  private final BlockingQueue<Kept> marks = new LinkedBlockingQueue<>();
  @TempDir Path folder;
  private Store store;
  private Ingest ingest;

  @BeforeEach
  void start() {
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    ingest =
        new Ingest(
            store, now::get, live -> {}, this::marked, (handle, bench, before, notice) -> {});
    ingest.start();
  }

  @AfterEach
  void stop() {
    ingest.close();
    store.close();
  }

  private void marked(String topic, byte[] payload) {
    try {
      marks.add(Json.MAPPER.readValue(payload, Kept.class));
    } catch (java.io.IOException broken) {
      throw new IllegalStateException(broken);
    }
  }

  /** What the mark is once this event has been taken in. */
  private long markAfter(long seq) throws Exception {
    byte[] payload = Json.MAPPER.writeValueAsBytes(Spoken.dose("e", seq, "A1", EIGHT));
    ingest.receive(new Delivery(TOPICS.events(), payload, false, () -> {}));
    Kept mark = marks.poll(20, TimeUnit.SECONDS);
    assertEquals("e", mark.epoch());
    return mark.seq();
  }

  private void later(Duration time) {
    now.updateAndGet(before -> before.plus(time));
  }

  @Test
  void numbersThatNeverComeThoughToldAgainArePassedOverAndNoted() throws Exception {
    assertEquals(0, markAfter(101));
    assertEquals(0, markAfter(102));
    later(Duration.ofMinutes(1));
    assertEquals(0, markAfter(101));
    later(Duration.ofMinutes(15));
    assertEquals(102, markAfter(102), "told again after a quarter of an hour");
    assertEquals(103, markAfter(103));
    assertEquals(List.of(new Gap("sill", "e", 1, 100)), store.events().gaps("sill"));
    assertEquals(100, ingest.counts().passedOver());
  }

  @Test
  void timeAloneProvesNothing() throws Exception {
    assertEquals(0, markAfter(3));
    later(Duration.ofDays(3));
    assertEquals(0, markAfter(4), "the bench was away and begins where it stopped");
    assertEquals(0, ingest.counts().passedOver());
    assertEquals(1, markAfter(1));
    assertEquals(4, markAfter(2));
  }

  @Test
  void whatIsMissingBeyondTheEventToldAgainMayStillCome() throws Exception {
    assertEquals(0, markAfter(2));
    assertEquals(0, markAfter(4));
    later(Duration.ofMinutes(16));
    assertEquals(2, markAfter(2), "the bench tells in order, and 3 comes after 2");
    assertEquals(4, markAfter(3));
    assertEquals(1, ingest.counts().passedOver());
  }

  @Test
  void aGapThatIsFilledIsForgotten() throws Exception {
    assertEquals(0, markAfter(2));
    assertEquals(2, markAfter(1));
    later(Duration.ofMinutes(16));
    assertEquals(2, markAfter(4), "a new gap has a time of its own");
    assertEquals(2, markAfter(4));
    assertEquals(4, markAfter(3));
    assertEquals(0, ingest.counts().passedOver());
  }
}
