package dev.cupwarden.app.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.SomeState;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.journal.TickEntry;
import dev.cupwarden.app.service.LoopProgress;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ControllerMqttLinkTest {
  private static final Instant NOW = Instant.parse("2027-01-10T08:00:00Z");
  private static final Topics TOPICS = new Topics("back-room");
  private static final Duration SOON = Duration.ofSeconds(20);
  private static final String ORDER =
      """
      {"id":"%s","kind":"release","by":"gardener",
       "issued":"2027-01-10T07:59:00Z","expires":"%s"}""";

  @TempDir Path folder;
  private RealBroker broker;
  private Journal journal;
  private Outbox outbox;
  private ControllerMqttLink link;

  @BeforeEach
  void startBroker() throws Exception {
    broker = RealBroker.start(folder);
    journal = Journal.open(folder.resolve("journal.db"));
    outbox = Outbox.of(journal);
  }

  @AfterEach
  void end() throws Exception {
    if (link != null) {
      link.close();
    }
    outbox.close();
    journal.close();
    broker.close();
  }

  private void startLink() throws Exception {
    link =
        ControllerMqttLink.start(
            BrokerSettings.open(broker.uri()),
            TOPICS,
            outbox,
            () -> NOW,
            new LoopProgress(Duration.ofMinutes(5), 0),
            Duration.ofMillis(100));
  }

  private void startLinkAndWait() throws Exception {
    startLink();
    await("online", link::isOnline);
  }

  /** Looks often, so that what is half done is seen half done. */
  private static void await(String what, Callable<Boolean> isSo) {
    Awaitility.await(what).pollInterval(Duration.ofMillis(5)).atMost(SOON).until(isSo);
  }

  private void note(int from, int to) throws Exception {
    for (int i = from; i <= to; i++) {
      journal.note(JournalEvent.change(NOW, "test", "no. " + i));
    }
  }

  private static void ticked(ControllerMqttLink link) {
    link.ticked(
        List.of(),
        new BenchStatus(NOW, 20.0, null, null, null, new TreeMap<>(), List.of(), 300, "test"));
  }

  private static List<Long> seqs(Listener listener) {
    return listener.on(TOPICS.events()).stream().map(e -> e.body().get("seq").asLong()).toList();
  }

  @Test
  void presenceIsRetainedAndTurnsOfflineAtTheEnd() throws Exception {
    startLinkAndWait();
    try (Listener late = new Listener(broker.uri())) {
      await("presence", () -> !late.on(TOPICS.presence()).isEmpty());
      assertEquals("online", late.on(TOPICS.presence()).get(0).body().get("state").asText());
      assertTrue(late.on(TOPICS.presence()).get(0).retained());
      link.close();
      await("offline", () -> late.on(TOPICS.presence()).size() == 2);
      assertEquals("offline", late.on(TOPICS.presence()).get(1).body().get("state").asText());
    }
  }

  @Test
  void eventsReadingsAndStateAreToldWithTheirExpiry() throws Exception {
    startLinkAndWait();
    try (Listener listener = new Listener(broker.uri())) {
      journal.commit(
          new TickEntry(
              NOW,
              "{}",
              SomeState.at(NOW),
              Optional.of("[{\"n\":\"A1/mass\",\"u\":\"g\",\"v\":300.5}]"),
              List.of(),
              List.of(JournalEvent.change(NOW, "test", "one")),
              List.of()));
      ticked(link);
      await("bench", () -> !listener.on(TOPICS.benchStatus()).isEmpty());
      await("event", () -> !listener.on(TOPICS.events()).isEmpty());
      await("readings", () -> !listener.on(TOPICS.readings()).isEmpty());
      assertEquals(List.of(1L), seqs(listener));
      assertEquals(604_800, listener.on(TOPICS.events()).get(0).expiryS());
      assertEquals(2_592_000, listener.on(TOPICS.benchStatus()).get(0).expiryS());
      await("packs gone", () -> outbox.packsAfter(0, 1).isEmpty());
      assertEquals(1, outbox.eventsAfter("", 0, 9).size(), "no host has kept it yet");
    }
  }

  @Test
  void theSetUpIsToldWhenItChangesAndARetiredCupLeavesNothingAtTheBroker() throws Exception {
    Bench bench = BackRoom.bench();
    Tick tick = new Tick(bench);
    BenchState later =
        tick.step(tick.fresh(), seen(bench, "{\"at\":\"2027-01-10T08:00:00Z\"}")).state();
    String order =
        """
        {"at":"2027-01-10T08:05:00Z",
         "orders":[{"id":"o-1","kind":"retire","cup":"A1","because":"rooted"}]}""";
    BenchState retired = tick.step(later, seen(bench, order)).state();
    startLinkAndWait();
    try (Listener listener = new Listener(broker.uri())) {
      for (BenchState state : List.of(later, later, retired)) {
        link.setUp(tick.setup(state));
        link.ticked(
            tick.standing(state).statuses(),
            new BenchStatus(NOW, null, null, null, null, new TreeMap<>(), List.of(), 300, "test"));
      }
      await(
          "the retired cup is gone",
          () ->
              listener.on(TOPICS.setup()).stream().anyMatch(s -> !s.body().at("/cups").has("A1")));
      Schemas.assertFits("setup", listener.on(TOPICS.setup()).get(0).body());
      await(
          "its state is taken back",
          () -> listener.on(TOPICS.cup("A1")).stream().anyMatch(s -> s.body().isMissingNode()));
    }
  }

  private static Observation seen(Bench bench, String line) throws Exception {
    return ObservationReader.read(line, bench.cups().keySet(), bench.tanks().keySet());
  }

  @Test
  void keptEventsLeaveTheOutboxAndTheRestIsToldAgainAfterAReconnect() throws Exception {
    note(1, 5);
    startLinkAndWait();
    try (Listener listener = new Listener(broker.uri())) {
      String epoch = outbox.eventsAfter("", 0, 1).get(0).epoch();
      for (String noMark : List.of("null", "{}", "[]", "{\"seq\":3}")) {
        listener.say(TOPICS.kept(), noMark, false);
      }
      listener.say(TOPICS.kept(), "{\"epoch\":\"" + epoch + "\",\"seq\":3}", true);
      await("kept", () -> outbox.eventsAfter("", 0, 9).size() == 2);
    }
    broker.kill();
    await("offline", () -> !link.isOnline());
    note(6, 7);
    broker.startAgain();
    try (Listener listener = new Listener(broker.uri())) {
      await("the rest", () -> seqs(listener).containsAll(List.of(4L, 5L, 6L, 7L)));
      assertFalse(seqs(listener).contains(3L));
    }
  }

  @Test
  void whatNobodyListensToWaitsInTheJournal() throws Exception {
    startLinkAndWait();
    journal.commit(
        new TickEntry(
            NOW,
            "{}",
            SomeState.at(NOW),
            Optional.of("[{\"n\":\"A1/mass\",\"u\":\"g\",\"v\":300.5}]"),
            List.of(),
            List.of(JournalEvent.change(NOW, "test", "one")),
            List.of()));
    ticked(link);
    try (Listener host = new Listener(broker.uri())) {
      await("the event", () -> seqs(host).contains(1L));
      await("the readings", () -> !host.on(TOPICS.readings()).isEmpty());
    }
  }

  @Test
  void nothingIsLostWhenTheBrokerDiesInTheMidst() throws Exception {
    note(1, 300);
    try (Listener first = new Listener(broker.uri())) {
      startLink();
      await("some", () -> seqs(first).size() > 20);
      broker.kill();
    }
    broker.startAgain();
    try (Listener second = new Listener(broker.uri())) {
      await("all unkept", () -> seqs(second).stream().distinct().count() == 300);
    }
  }

  @Test
  void aMissingBrokerHoldsNobodyUp() throws Exception {
    broker.kill();
    startLink();
    long begun = System.nanoTime();
    for (int i = 0; i < 1_000; i++) {
      ticked(link);
    }
    assertTrue(System.nanoTime() - begun < Duration.ofSeconds(2).toNanos());
    assertFalse(link.isOnline());
    begun = System.nanoTime();
    link.close();
    assertTrue(System.nanoTime() - begun < Duration.ofSeconds(8).toNanos());
    broker.startAgain();
  }

  @Test
  void freshOrderReachesTheJournalAndOthersGetAReceiptThatSaysWhy() throws Exception {
    startLinkAndWait();
    try (Listener host = new Listener(broker.uri())) {
      host.say(TOPICS.orders(), ORDER.formatted("o-1", "2027-01-10T09:00:00Z"), false);
      await("order", () -> journal.waitingOrders().size() == 1);
      host.say(TOPICS.orders(), ORDER.formatted("o-1", "2027-01-10T09:30:00Z"), false);
      host.say(TOPICS.orders(), ORDER.formatted("o-2", "2027-01-10T07:59:30Z"), false);
      host.say(TOPICS.orders(), ORDER.formatted("o-3", "2027-01-10T09:00:00Z"), true);
      host.say(TOPICS.orders(), "{\"id\":", false);
      await("receipts", () -> host.on(TOPICS.receipts()).size() == 5);
      List<String> said =
          host.on(TOPICS.receipts()).stream()
              .map(r -> r.body().path("id").asText("-") + " " + r.body().path("why").asText("ok"))
              .map(text -> text.substring(0, Math.min(14, text.length())))
              .toList();
      assertEquals(
          List.of("o-1 ok", "o-1 repeated: ", "o-2 stale: it ", "o-3 a retained", "- an order mus"),
          said);
      assertEquals(1, journal.waitingOrders().size());
    }
  }
}
