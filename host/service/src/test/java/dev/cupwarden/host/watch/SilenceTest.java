package dev.cupwarden.host.watch;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Alerts.Seen;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Store;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A controller from before there were beats: its life is the ticks that its status tells of. */
class SilenceTest {
  private static final Alerts.Key KEY =
      new Alerts.Key("sill", "controller-silent", Optional.empty());
  private final AtomicReference<Instant> now = new AtomicReference<>(EIGHT);
  private final List<LiveEvent> live = new ArrayList<>();
  private final List<String> told = new ArrayList<>();
  @TempDir Path folder;
  private Store store;
  private SilenceWatch watch;
  private boolean connected = true;

  @BeforeEach
  void start() {
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    watch = newWatch();
  }

  @AfterEach
  void stop() {
    store.close();
  }

  private SilenceWatch newWatch() {
    HostAlerts alerts =
        new HostAlerts(
            store,
            now::get,
            now::get,
            (handle, bench, before, notice) -> told.add(notice.state()),
            live::add,
            () -> true);
    return new SilenceWatch(store, now::get, new Heartbeats(), alerts, () -> connected, () -> true);
  }

  /** It is connected and has finished a tick, or it is gone. */
  private void says(String presence) {
    store.write(
        handle -> {
          store.benches().presence(handle, "sill", presence, now.get(), now.get());
          if (presence.equals("online")) {
            store.benches().heard(handle, "sill", now.get());
          }
        });
  }

  private void ticksEvery(int tickS) {
    store.write(
        handle -> store.benches().status(handle, "sill", now.get(), "{\"tick_s\":" + tickS + "}"));
  }

  /** Minutes until the alert is raised, looking every ten seconds, at most an hour. */
  private double minutesUntilRaised() {
    Instant from = now.get();
    while (!isRaised() && now.get().isBefore(from.plus(Duration.ofHours(1)))) {
      now.updateAndGet(before -> before.plusSeconds(10));
      watch.run();
    }
    assertTrue(isRaised(), "never raised");
    return Duration.between(from, now.get()).toSeconds() / 60.0;
  }

  private boolean isRaised() {
    return store.alerts().find(KEY).filter(AlertRow::isOpen).isPresent();
  }

  @Test
  void aControllerThatIsGoneIsToldWithinFiveMinutesOnceAndClearedWhenItIsBack() {
    says("online");
    says("offline");
    double minutes = minutesUntilRaised();
    assertTrue(minutes <= 5, "raised after " + minutes + " min");
    watch.run();
    now.updateAndGet(before -> before.plusSeconds(60));
    says("online");
    watch.run();
    assertTrue(!isRaised());
    assertEquals(List.of("raised", "cleared"), told);
    assertEquals(2, live.size());
    Search alerts = new Search("sill", null, "alert", Instant.EPOCH, now.get().plusSeconds(1), 10);
    assertEquals(2, store.events().find(alerts).size());
  }

  @Test
  void aControllerThatRestartsAtOnceIsNotWorthATelling() {
    says("online");
    says("offline");
    now.updateAndGet(before -> before.plusSeconds(90));
    watch.run();
    says("online");
    watch.run();
    assertEquals(List.of(), told);
  }

  @Test
  void connectedButNotFlowingIsToldTooAndSaysSo() {
    says("online");
    ticksEvery(60);
    double minutes = minutesUntilRaised();
    assertTrue(minutes <= 5, "raised after " + minutes + " min");
    assertTrue(store.alerts().find(KEY).orElseThrow().notice().contains("Connected, but nothing"));
  }

  @Test
  void aBenchOfSlowTicksIsGivenTwoOfThemUnlessTheHostItselfIsCutOff() {
    says("online");
    ticksEvery(300);
    assertEquals(11, minutesUntilRaised(), 0.2);
    says("online");
    now.updateAndGet(before -> before.plusSeconds(1));
    says("online");
    watch.run();
    assertTrue(!isRaised());
    connected = false;
    assertTrue(minutesUntilRaised() <= 5);
    assertTrue(store.alerts().find(KEY).orElseThrow().notice().contains("does not reach"));
  }

  @Test
  void aRestartNeitherRepeatsNorForgetsNorClears() {
    says("online");
    says("offline");
    minutesUntilRaised();
    store.write(handle -> store.alerts().acknowledge(handle, KEY, new Seen(now.get(), "me")));
    watch = newWatch();
    for (int minute = 0; minute < 10; minute++) {
      now.updateAndGet(before -> before.plusSeconds(60));
      watch.run();
    }
    assertEquals(List.of("raised"), told);
    assertTrue(store.alerts().find(KEY).orElseThrow().seen().isPresent());
    says("online");
    watch.run();
    assertEquals(List.of("raised", "cleared"), told);
  }

  @Test
  void silenceWhileNobodyListenedDoesNotCount() {
    says("online");
    now.updateAndGet(before -> before.plus(Duration.ofDays(2)));
    watch = newWatch();
    watch.run();
    assertEquals(List.of(), told);
    assertTrue(minutesUntilRaised() <= 5);
  }
}
