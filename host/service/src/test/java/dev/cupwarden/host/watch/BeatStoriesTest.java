package dev.cupwarden.host.watch;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Beat.Doing;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Alerts.Seen;
import dev.cupwarden.host.store.Database;
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
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Loops that live, hang, die and start in vain, as their beats show them; time moved by hand. */
class BeatStoriesTest {
  private static final Duration LOOK = Duration.ofSeconds(10);
  private static final Duration LONG = Duration.ofHours(3);
  private static final Duration BEAT = Duration.ofMinutes(1);
  @TempDir Path folder;
  private final AtomicReference<Instant> now = new AtomicReference<>(EIGHT);
  private final List<AlertNotice> told = new ArrayList<>();
  private Store store;
  private Heartbeats beats;
  private HostAlerts alerts;
  private SilenceWatch silence;
  private DuplicateNameWatch duplicates;
  private final List<Loop> loops = new ArrayList<>();

  /** A controller's loop, seen from its beats. */
  private static final class Loop {
    private final String instance;
    private final int periodS;
    private final Instant began;
    private int startsInVain;
    private Instant hangsFrom = Instant.MAX;
    private Instant diesAt = Instant.MAX;
    private Instant nextBeat;
    private Doing hangsAt = Doing.READING;

    Loop(String instance, int periodS, Instant began) {
      this.instance = instance;
      this.periodS = periodS;
      this.began = began;
      this.nextBeat = began;
    }

    /** A tick is due at once and then each period, and takes no time. */
    Beat beat(Instant at) {
      Instant to = at.isBefore(hangsFrom) ? at : hangsFrom;
      long sinceS = Duration.between(began, to).toSeconds();
      long ticks = hangsFrom.isAfter(began) ? sinceS / periodS + 1 : 0;
      boolean hangs = !at.isBefore(hangsFrom);
      Instant ended = began.plusSeconds((ticks - 1) * periodS);
      Instant since = hangs ? hangsFrom : ended;
      double forS = Duration.between(since, at).toMillis() / 1000.0;
      return new Beat(
          at, instance, ticks, hangs ? hangsAt : Doing.WAITING, forS, periodS, startsInVain);
    }
  }

  @BeforeEach
  void start() {
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    begin();
  }

  /** As a host does at its start, over the same store. */
  private void begin() {
    beats = new Heartbeats();
    alerts =
        new HostAlerts(
            store,
            now::get,
            now::get,
            (handle, bench, before, notice) -> told.add(notice),
            live -> {},
            () -> true);
    silence = new SilenceWatch(store, now::get, beats, alerts, () -> true, () -> true);
    duplicates = new DuplicateNameWatch(now::get, beats, alerts);
  }

  @AfterEach
  void stop() {
    store.close();
  }

  private Loop loop(String instance, int periodS) {
    Loop loop = new Loop(instance, periodS, now.get());
    loops.add(loop);
    return loop;
  }

  private void pass(Duration time) {
    Instant end = now.get().plus(time);
    while (now.get().isBefore(end)) {
      for (Loop loop : loops) {
        if (!now.get().isBefore(loop.nextBeat) && now.get().isBefore(loop.diesAt)) {
          beats.hear("sill", loop.beat(now.get()), now.get());
          loop.nextBeat = loop.nextBeat.plus(BEAT);
        }
      }
      silence.run();
      duplicates.run();
      now.updateAndGet(before -> before.plus(time.compareTo(LONG) > 0 ? BEAT : LOOK));
    }
  }

  private boolean isOpen(String code) {
    return store
        .alerts()
        .find(new Alerts.Key("sill", code, Optional.empty()))
        .filter(AlertRow::isOpen)
        .isPresent();
  }

  /** Until the alert is there, at most three hours. */
  private Duration until(String code) {
    Instant from = now.get();
    while (!isOpen(code) && now.get().isBefore(from.plus(Duration.ofHours(3)))) {
      pass(LOOK);
    }
    assertTrue(isOpen(code), code + " was never told");
    return Duration.between(from, now.get());
  }

  private String words() {
    return told.get(told.size() - 1).whatToDo();
  }

  @ParameterizedTest
  @ValueSource(ints = {10, 30, 60, 300, 900})
  void aLoopThatGoesOnIsNeverTold(int periodS) {
    loop("a", periodS);
    pass(Duration.ofHours(3));
    assertEquals(List.of(), told);
  }

  /** It was never told: presence, and events told again, had been taken for life. */
  @ParameterizedTest
  @ValueSource(ints = {10, 30, 60, 300})
  void aTickThatHangsIsToldWithinTwoTicksAndAMinuteWithItsWords(int periodS) {
    Loop loop = loop("a", periodS);
    pass(Duration.ofHours(1));
    // The next tick begins, and does not end.
    loop.hangsFrom = now.get().plusSeconds(periodS).minusMillis(1);
    store.write(handle -> store.benches().presence(handle, "sill", "online", EIGHT, now.get()));
    Duration limit = Duration.ofSeconds(2L * periodS + 60);
    Duration took = until("controller-silent").minusSeconds(periodS);
    assertTrue(took.compareTo(limit) <= 0, "told after " + took + ", limit " + limit);
    assertTrue(words().startsWith("Its loop hangs: tick"), words());
    assertTrue(words().contains("reading"), words());
  }

  @Test
  void aLoopThatDiesIsToldWithinFiveMinutes() {
    Loop loop = loop("a", 60);
    pass(Duration.ofHours(1));
    loop.diesAt = now.get();
    Duration took = until("controller-silent");
    assertTrue(took.compareTo(Duration.ofMinutes(5)) <= 0, took::toString);
    assertTrue(words().contains("no longer reports"), words());
  }

  @Test
  void aThreadThatHasEndedInAProcessThatLivesIsToldAtItsNextBeat() {
    Loop loop = loop("a", 60);
    pass(Duration.ofHours(1));
    loop.hangsFrom = now.get();
    loop.hangsAt = Doing.ENDED;
    assertTrue(until("controller-silent").compareTo(Duration.ofMinutes(2)) <= 0);
    assertTrue(words().contains("loop has ended"), words());
  }

  /** A service manager starts it again and again; each start says it is online, and dies. */
  @Test
  void threeStartsInVainAreToldAtOnceAndAreNoSignOfLife() {
    pass(Duration.ofMinutes(1));
    for (int start = 0; start < 12; start++) {
      Loop loop = loop("start-" + start, 60);
      loop.hangsFrom = now.get();
      loop.startsInVain = start;
      loop.diesAt = now.get().plusSeconds(30);
      store.write(
          handle -> store.benches().presence(handle, "sill", "online", now.get(), now.get()));
      pass(Duration.ofSeconds(30));
      assertEquals(start >= 3, isOpen("controller-silent"), "start " + start);
      store.write(
          handle -> store.benches().presence(handle, "sill", "offline", now.get(), now.get()));
      pass(Duration.ofSeconds(10));
    }
    assertEquals(1, told.size());
    assertTrue(words().contains("3 starts without a finished tick"), words());
    Loop well = loop("well", 60);
    well.startsInVain = 12;
    pass(Duration.ofMinutes(3));
    assertFalse(isOpen("controller-silent"));
  }

  /** Between two looks it comes, says its beat and is gone: each look finds it offline anew. */
  @Test
  void startsInVainThatLiveForASecondAreToldByTheFirstLookAfterTheFourth() {
    pass(Duration.ofMinutes(1));
    for (int start = 0; start <= 3; start++) {
      Loop loop = loop("start-" + start, 60);
      loop.hangsFrom = now.get();
      loop.startsInVain = start;
      beats.hear("sill", loop.beat(now.get()), now.get());
      loop.diesAt = now.get();
      Instant gone = now.get().plusSeconds(1);
      store.write(handle -> store.benches().presence(handle, "sill", "offline", gone, gone));
      assertFalse(isOpen("controller-silent"));
      pass(LOOK);
    }
    assertTrue(isOpen("controller-silent"));
    assertTrue(words().contains("3 starts without a finished tick"), words());
  }

  /** It had even been cleared by a word that was no tick. */
  @Test
  void itIsOverOnlyWhenATickIsSeenToBeFinished() {
    Loop loop = loop("a", 60);
    pass(Duration.ofHours(1));
    loop.hangsFrom = now.get();
    until("controller-silent");
    store.write(
        handle -> {
          store.benches().presence(handle, "sill", "online", now.get(), now.get());
          store.benches().heard(handle, "sill", now.get());
        });
    pass(Duration.ofHours(5));
    assertTrue(isOpen("controller-silent"));
    begin();
    pass(Duration.ofHours(1));
    assertTrue(isOpen("controller-silent"), "nor does a restart of the host end it");
    loop.diesAt = now.get();
    loop("b", 60);
    pass(Duration.ofMinutes(3));
    assertFalse(isOpen("controller-silent"));
    assertEquals(List.of("raised", "cleared"), told.stream().map(AlertNotice::state).toList());
  }

  @Test
  void itIsToldAgainEachDayAndOnceSeenEachWeek() {
    Loop loop = loop("a", 60);
    pass(Duration.ofMinutes(10));
    loop.hangsFrom = now.get();
    until("controller-silent");
    pass(Duration.ofHours(25));
    assertEquals(2, told.size(), "after a day");
    begin();
    pass(Duration.ofHours(25));
    assertEquals(3, told.size(), "a restart neither repeats nor forgets");
    assertEquals(1, told.stream().map(AlertNotice::since).distinct().count());
    Alerts.Key key = new Alerts.Key("sill", "controller-silent", Optional.empty());
    store.write(handle -> store.alerts().acknowledge(handle, key, new Seen(now.get(), "me")));
    pass(Duration.ofHours(26));
    assertEquals(3, told.size());
    now.updateAndGet(before -> before.plus(Duration.ofDays(6)));
    pass(Duration.ofMinutes(1));
    assertEquals(4, told.size());
  }

  @Test
  void aFirstTickThatWaitsForASoakIsNoHang() {
    Loop loop = loop("a", 60);
    loop.hangsFrom = now.get();
    loop.hangsAt = Doing.SETTLING;
    pass(Duration.ofHours(2));
    assertEquals(List.of(), told);
  }

  @Test
  void aRestartIsNoTwinAndNoSilence() {
    Loop before = loop("a", 60);
    pass(Duration.ofHours(1));
    before.diesAt = now.get();
    pass(Duration.ofSeconds(40));
    loop("b", 60);
    pass(Duration.ofHours(2));
    assertEquals(List.of(), told);
  }

  /** Nobody had been told; both water. */
  @Test
  void twoControllersOfOneNameAreToldAndOverAnHourAfterOneIsAlone() {
    loop("a", 60);
    pass(Duration.ofSeconds(30));
    Loop other = loop("b", 60);
    assertTrue(until("two-controllers").compareTo(Duration.ofMinutes(2)) <= 0);
    pass(Duration.ofHours(3));
    assertEquals(1, told.size());
    other.diesAt = now.get();
    pass(Duration.ofMinutes(55));
    assertTrue(isOpen("two-controllers"));
    pass(Duration.ofMinutes(10));
    assertFalse(isOpen("two-controllers"));
    begin();
    pass(Duration.ofHours(2));
    assertEquals(List.of("raised", "cleared"), told.stream().map(AlertNotice::state).toList());
  }

  /** It hears the other at the broker, perhaps before any turn is seen here. */
  @Test
  void whatAControllerRaisedStandsForAnHourAndEndsOnce() {
    loop("a", 60);
    pass(Duration.ofHours(2));
    AlertNotice raised =
        new AlertNotice("two-controllers", null, "raised", now.get(), 1, 1, "Stop one of them.");
    store.write(
        handle ->
            store
                .alerts()
                .put(
                    handle,
                    Alerts.Key.of("sill", raised),
                    "raised",
                    now.get(),
                    Json.written(raised)));
    pass(Duration.ofMinutes(55));
    assertTrue(isOpen("two-controllers"));
    pass(Duration.ofMinutes(10));
    assertFalse(isOpen("two-controllers"));
    pass(Duration.ofHours(2));
    assertEquals(List.of("cleared"), told.stream().map(AlertNotice::state).toList());
  }

  @Test
  void aBeatToldASecondTimeIsNoTwin() {
    Beat first = new Beat(now.get(), "a", 1, Doing.WAITING, 1, 60, 0);
    beats.hear("sill", first, now.get());
    beats.hear("sill", new Beat(now.get(), "b", 1, Doing.WAITING, 1, 60, 0), now.get());
    beats.hear("sill", first, now.get());
    assertEquals(Optional.empty(), beats.of("sill").orElseThrow().turns());
  }

  /** The host is upgraded first: its controllers have no beats yet, but tell of their ticks. */
  @Test
  void anOlderControllerIsJudgedByItsTicksAlsoWhenItIsPutBack() {
    for (int minute = 0; minute < 60; minute++) {
      store.write(
          handle -> {
            store.benches().presence(handle, "sill", "online", EIGHT, EIGHT);
            store.benches().heard(handle, "sill", now.get());
          });
      pass(Duration.ofMinutes(1));
    }
    assertEquals(List.of(), told);
    Loop newer = loop("a", 60);
    pass(Duration.ofHours(1));
    newer.diesAt = now.get();
    until("controller-silent");
    for (int hour = 0; hour < 25; hour++) {
      store.write(handle -> store.benches().heard(handle, "sill", now.get()));
      now.updateAndGet(before -> before.plus(Duration.ofHours(1)));
      pass(LOOK);
    }
    store.write(handle -> store.benches().heard(handle, "sill", now.get()));
    pass(LOOK);
    assertFalse(isOpen("controller-silent"), "a day after its last beat it is an older one");
  }

  @Test
  void beatsAreRememberedOverARestartOfTheHost() {
    Loop loop = loop("a", 60);
    pass(Duration.ofMinutes(10));
    loop.diesAt = now.get();
    begin();
    store.write(handle -> store.benches().heard(handle, "sill", now.get()));
    Instant from = now.get();
    while (!isOpen("controller-silent") && now.get().isBefore(from.plus(Duration.ofHours(1)))) {
      store.write(handle -> store.benches().heard(handle, "sill", now.get()));
      pass(LOOK);
    }
    assertTrue(isOpen("controller-silent"), "its status is no life, since it is known to beat");
  }
}
