package dev.cupwarden.host.app.wire;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalRetention;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.journal.TickEntry;
import dev.cupwarden.app.link.BrokerSettings;
import dev.cupwarden.app.link.ControllerMqttLink;
import dev.cupwarden.app.service.LoopProgress;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import dev.cupwarden.host.Spoken;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;

/**
 * A controller's journal and link, without the bench: each tick it puts down one pack of two
 * readings and two events, each of which can be told from all others by its number.
 */
final class LoadedBench implements AutoCloseable {
  private static final Duration TICK = Duration.ofMinutes(15);
  private static final int DAY_TICKS = (int) Duration.ofDays(1).dividedBy(TICK);
  private static final Duration LIMIT = Duration.ofSeconds(120);

  /** Only the numbers told are looked at, not what a bench would decide. */
  private static final String ONE_CUP =
      """
      bench: loaded
      mixes: {perlite: {retention: {saturated: 0.8, residual: 0.1, alpha: 0.2, n: 1.5}, unavailable: 0.1, least_air: 0.1, dry_density: 0.1}}
      vessels: {tall: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}}
      cups: {A1: {vessel: tall, mix: perlite, plant: vine, stage: struck, cutting: 10 g}}
      """;

  private final BenchState state;
  private final Journal journal;
  private final Outbox outbox;
  private final String name;
  private final AtomicReference<Throwable> failed = new AtomicReference<>();
  private ControllerMqttLink link;
  private Thread load;
  private volatile boolean ending;
  private volatile int ticks;

  LoadedBench(String name, Path folder) throws JournalException, SetupException {
    this.name = name;
    state = new Tick(BenchFile.read("bench.yaml", ONE_CUP)).fresh();
    journal = Journal.open(folder.resolve(name + ".db"));
    outbox = Outbox.of(journal);
  }

  void connect(String broker) {
    link =
        ControllerMqttLink.start(
            BrokerSettings.open(URI.create(broker)),
            new Topics(name),
            outbox,
            this::now,
            new LoopProgress(TICK, 0));
  }

  Instant now() {
    return Spoken.EIGHT.plus(TICK.multipliedBy(ticks));
  }

  boolean isOnline() {
    return link.isOnline();
  }

  /** A quarter of an hour of the bench's time. */
  void tick() throws Exception {
    int number = ticks + 1;
    ticks = number;
    Instant at = now();
    List<JournalEvent> events =
        List.of(
            JournalEvent.of(at, new Dose("A1", number, 0.0, 0.0, "due", "given")),
            number % 2 == 0
                ? JournalEvent.change(at, "test", "no. " + number)
                : JournalEvent.of(
                    at,
                    new AlertNotice(
                        "cold",
                        null,
                        number % 4 == 1 ? "raised" : "cleared",
                        at,
                        4.0,
                        number,
                        "Look at the bench.")));
    String pack = Json.MAPPER.writeValueAsString(Spoken.pack(name, at, "A1", 300 + number * 0.01));
    journal.commit(new TickEntry(at, "{}", state, Optional.of(pack), List.of(), events, List.of()));
    if (number % DAY_TICKS == 0) {
      journal.endDay(new Journal.Start(at, "", state, "test"), JournalRetention.USUAL);
    }
  }

  /** Ticks, one after another with a short pause, until {@link #stopLoad}. */
  void startLoad(long pauseMs) {
    load =
        new Thread(
            () -> {
              try {
                while (!ending) {
                  tick();
                  TimeUnit.MILLISECONDS.sleep(pauseMs);
                }
              } catch (Throwable wrong) {
                failed.set(wrong);
              }
            },
            "load of " + name);
    load.start();
  }

  void stopLoad() throws InterruptedException {
    ending = true;
    load.join();
    assertEquals(null, failed.get());
  }

  /** How many events no host has kept. */
  int unkept() throws JournalException {
    return outbox.eventsAfter("", 0, 1_000_000).size();
  }

  /** Waits until a host has kept every event. */
  void awaitKept() {
    await("the last of " + 2 * ticks + " events is kept")
        .atMost(LIMIT)
        .until(() -> !outbox.anyUnkept());
  }

  /** Events and readings there are now: each of ours once, and nothing else. */
  void assertAllOnce(Stored stored) throws Exception {
    List<String> expected = new ArrayList<>();
    for (int number = 1; number <= ticks; number++) {
      expected.add("dose " + number);
      expected.add((number % 2 == 0 ? "change " : "alert ") + number);
    }
    assertEquals(expected, stored.events(name));
    await("readings")
        .atMost(LIMIT)
        .untilAsserted(() -> assertEquals(2L * ticks, stored.readings(name)));
  }

  int ticks() {
    return ticks;
  }

  @Override
  public void close() throws Exception {
    ending = true;
    if (link != null) {
      link.close();
    }
    outbox.close();
    journal.close();
  }
}
