package dev.cupwarden.host.store;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.store.Alerts.Key;
import dev.cupwarden.host.store.Alerts.Seen;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Notices.NoticeRow;
import dev.cupwarden.host.store.Orders.OrderRow;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.Setups.CupRow;
import dev.cupwarden.host.store.Setups.CuttingRow;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import dev.cupwarden.host.store.Users.UserRow;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jdbi.v3.core.statement.SqlLogger;
import org.jdbi.v3.core.statement.StatementContext;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What a store must do on whichever database. */
abstract class StoreStoriesTest {
  private static final Duration MINUTE = Duration.ofMinutes(1);
  protected Store store;

  /** Where an empty store is. */
  abstract Database database() throws Exception;

  /** True if a statement's plan reads a table of many rows from end to end. */
  abstract boolean readsAWholeTable(String sql);

  @BeforeEach
  void open() throws Exception {
    store = Store.open(database());
  }

  @AfterEach
  void close() {
    store.close();
  }

  private void add(String name, Instant from, int minutes) {
    List<Reading> readings = new ArrayList<>();
    for (int minute = 0; minute < minutes; minute++) {
      double value = 300 - minute * 0.01 + (minute % 97 == 13 ? 40 : 0);
      readings.add(new Reading("sill", name, "g", from.plus(MINUTE.multipliedBy(minute)), value));
    }
    store.write(handle -> store.readings().insert(handle, readings));
    store.readings().remember(readings);
  }

  private static EventRow event(long seq, Instant at) {
    return new EventRow("sill", "e", seq, at, "dose", "A1", "{}");
  }

  @Test
  void aReadingIsStoredOnceAndTheFirstValueStays() {
    Reading first = new Reading("sill", "A1/mass", "g", EIGHT, 300);
    Reading other = new Reading("sill", "A1/mass", "g", EIGHT, 999);
    store.write(handle -> store.readings().insert(handle, List.of(first, other, first)));
    store.write(handle -> store.readings().insert(handle, List.of(other)));
    Curve curve = store.readings().between("sill", "A1/mass", EIGHT, EIGHT.plusSeconds(1));
    assertEquals(1, curve.size());
    assertEquals(300, curve.value(0));
    assertEquals(Optional.of(EIGHT), store.readings().newest("sill", "A1/mass"));
  }

  @Test
  void twoHostsThatStoreTheSameAtOnceStoreItOnce() throws Exception {
    ExecutorService hosts = Executors.newFixedThreadPool(2);
    try {
      List<Future<?>> both = new ArrayList<>();
      for (int host = 0; host < 2; host++) {
        both.add(
            hosts.submit(
                () -> {
                  for (int round = 0; round < 20; round++) {
                    add("B" + round + "/mass", EIGHT, 50);
                  }
                }));
      }
      for (Future<?> each : both) {
        each.get();
      }
    } finally {
      hosts.shutdownNow();
    }
    for (int round = 0; round < 20; round++) {
      String name = "B" + round + "/mass";
      assertEquals(
          50, store.readings().between("sill", name, EIGHT, EIGHT.plusSeconds(9999)).size(), name);
    }
  }

  @Test
  void theMarkStandsBeforeAGapAndMovesOverWhatIsPassedOver() {
    store.write(
        handle -> {
          for (long seq : new long[] {1, 2, 4, 5}) {
            assertTrue(store.events().insert(handle, event(seq, EIGHT)));
          }
          assertFalse(store.events().insert(handle, event(2, EIGHT)));
          assertEquals(2, store.events().advanceKept(handle, "sill", "e"));
          assertEquals(Optional.of(4L), store.events().nextAfter(handle, "sill", "e", 2));
          store.events().passOver(handle, new Events.Gap("sill", "e", 3, 3), EIGHT);
          assertEquals(5, store.events().advanceKept(handle, "sill", "e"));
        });
    assertEquals(5, store.events().kept("sill", "e"));
  }

  @Test
  void anAlertIsSeenUntilItClearsAndAnOlderWordChangesNothing() {
    Key key = new Key("sill", "cold", Optional.of("A1"));
    store.write(
        handle -> {
          assertTrue(store.alerts().put(handle, key, "raised", EIGHT, "{}").isPresent());
          assertEquals(
              Optional.of("raised"),
              store.alerts().put(handle, key, "raised", EIGHT.plusSeconds(5), "{}"));
          assertTrue(
              store.alerts().put(handle, key, "cleared", EIGHT.minusSeconds(5), "{}").isEmpty());
          Seen seen = new Seen(EIGHT, "somebody");
          assertTrue(store.alerts().acknowledge(handle, key, seen));
          assertTrue(store.alerts().acknowledge(handle, key, new Seen(EIGHT, "another")));
        });
    assertEquals("somebody", store.alerts().open("sill").get(0).seen().orElseThrow().by());
    store.write(
        handle -> {
          assertTrue(
              store.alerts().put(handle, key, "cleared", EIGHT.plusSeconds(9), "{}").isPresent());
          assertFalse(store.alerts().acknowledge(handle, key, new Seen(EIGHT, "late")));
          assertTrue(
              store.alerts().put(handle, key, "raised", EIGHT.plusSeconds(10), "{}").isPresent());
        });
    assertEquals(Optional.empty(), store.alerts().open("sill").get(0).seen());
  }

  @Test
  void aLongRangeShowsEveryPeakThoughItIsReadFromRollups() {
    int days = 40;
    add("A1/mass", EIGHT, days * 1440);
    Curve raw = store.readings().between("sill", "A1/mass", EIGHT, EIGHT.plus(Duration.ofDays(99)));
    store.rollups().rollUp(Instant.EPOCH);
    Instant end = EIGHT.plus(Duration.ofDays(days));
    Curve hours = store.readings().overview("sill", "A1/mass", EIGHT, end);
    Curve tenMinutes =
        store.readings().overview("sill", "A1/mass", EIGHT, EIGHT.plus(Duration.ofDays(20)));
    assertEquals(days * 1440, raw.size());
    assertTrue(hours.size() <= 2 * 24 * days + 120, "hours: " + hours.size());
    assertTrue(tenMinutes.size() <= 2 * 144 * 20 + 20, "ten minutes: " + tenMinutes.size());
    assertEquals(greatest(raw), greatest(hours));
    assertEquals(raw.atMs(raw.size() - 1), hours.atMs(hours.size() - 1));
    for (int index = 1; index < hours.size(); index++) {
      assertTrue(hours.atMs(index - 1) < hours.atMs(index), "in the order of time");
    }
  }

  private static double greatest(Curve curve) {
    double greatest = Double.NEGATIVE_INFINITY;
    for (int index = 0; index < curve.size(); index++) {
      greatest = Math.max(greatest, curve.value(index));
    }
    return greatest;
  }

  @Test
  void aReadingThatComesLateIsRolledUpToo() {
    add("A1/mass", EIGHT, 120);
    assertTrue(store.rollups().rollUp(Instant.EPOCH) > 0);
    assertEquals(0, store.rollups().rollUp(Instant.EPOCH), "nothing has changed");
    Reading late = new Reading("sill", "A1/mass", "g", EIGHT.plusSeconds(90), 777);
    store.write(handle -> store.readings().insert(handle, List.of(late)));
    assertEquals(1, store.rollups().rollUp(Instant.EPOCH));
    Curve far =
        store.readings().overview("sill", "A1/mass", EIGHT, EIGHT.plus(Duration.ofDays(60)));
    assertEquals(777, greatest(far));
  }

  @Test
  void whatIsOldGoesAndItsExtremesStay() {
    add("A1/mass", EIGHT, 3 * 1440);
    store.write(
        handle -> {
          store.benches().touch(handle, "sill");
          store.events().insert(handle, event(1, EIGHT));
          store.events().insert(handle, event(3, EIGHT));
          store.events().advanceKept(handle, "sill", "e");
        });
    Retention oneDay = new Retention(Duration.ofDays(1), Duration.ofDays(9), Duration.ofDays(1));
    new StoreMaintenance(store, () -> EIGHT.plus(Duration.ofDays(3)), oneDay).run();
    Instant oldEnd = EIGHT.plus(Duration.ofDays(1));
    assertEquals(0, store.readings().between("sill", "A1/mass", EIGHT, oldEnd).size());
    assertTrue(store.readings().overview("sill", "A1/mass", EIGHT, oldEnd).size() > 100);
    Search any = new Search("sill", null, null, Instant.EPOCH, EIGHT.plus(Duration.ofDays(9)), 10);
    assertEquals(
        List.of(3L),
        store.events().find(any).stream().map(EventRow::seq).toList(),
        "what no mark has passed stays");
    Reading late = new Reading("sill", "A1/mass", "g", EIGHT.plusSeconds(1), 1.0);
    int before = store.readings().overview("sill", "A1/mass", EIGHT, oldEnd).size();
    store.write(handle -> store.readings().insert(handle, List.of(late)));
    new StoreMaintenance(store, () -> EIGHT.plus(Duration.ofDays(3)), oneDay).run();
    assertEquals(before, store.readings().overview("sill", "A1/mass", EIGHT, oldEnd).size());
    new StoreMaintenance(store, () -> EIGHT, oneDay).vacuum();
  }

  @Test
  void aNoticeIsClaimedByOneHostOnly() {
    NoticeRow notice = new NoticeRow("n1", "mail", "sill", EIGHT, EIGHT, "{}", Optional.empty(), 0);
    store.write(handle -> store.notices().insert(handle, notice));
    List<NoticeRow> due = store.notices().due(EIGHT);
    assertEquals(List.of(notice), due);
    assertTrue(store.notices().claim(due, "m1", EIGHT.plusSeconds(60)));
    assertFalse(store.notices().claim(due, "m2", EIGHT.plusSeconds(60)));
    assertEquals(List.of(), store.notices().due(EIGHT));
    assertEquals(Optional.of("m1"), store.notices().due(EIGHT.plusSeconds(60)).get(0).message());
    store.notices().settle("m1", EIGHT, "sent");
    assertEquals(0, store.notices().waiting());
  }

  @Test
  void aSessionEndsWithItsTimeAndWithItsUser() {
    store.users().put(new UserRow("somebody", "look", "hash"));
    store.users().open("d1", "somebody", EIGHT, EIGHT.plusSeconds(60));
    assertEquals("look", store.users().inSession("d1", EIGHT).orElseThrow().role());
    assertEquals(Optional.empty(), store.users().inSession("d1", EIGHT.plusSeconds(60)));
    assertTrue(store.users().remove("somebody"));
    assertEquals(Optional.empty(), store.users().inSession("d1", EIGHT));
  }

  private Set<String> setUp(int day, String plant, String... cups) {
    TreeMap<String, CupRow> rows = new TreeMap<>();
    for (String cup : cups) {
      rows.put(cup, new CupRow(plant, "2026-11-14", "{\"plant\":\"" + plant + "\"}"));
    }
    Instant at = EIGHT.plus(Duration.ofDays(day));
    Set<String> gone = new TreeSet<>();
    store.write(
        handle ->
            gone.addAll(store.setups().put(handle, "sill", at, "{\"day\":" + day + "}", rows)));
    return gone;
  }

  @Test
  void aCuttingTakenOutStaysOnRecordAndAnotherPlantInItsPlaceIsAnother() {
    assertEquals(Set.of(), setUp(1, "vine", "A1", "A2"));
    assertEquals(Set.of("A2"), setUp(2, "vine", "A1"));
    assertEquals(Set.of(), setUp(3, "vine", "A1", "A2"), "a slip taken back");
    assertEquals(Set.of(), setUp(0, "elder", "A1"), "a late word changes nothing");
    assertEquals(Optional.of("{\"day\":3}"), store.setups().find("sill"));
    assertEquals(2, store.setups().cuttings("sill").size());
    assertEquals(Set.of("A1"), setUp(4, "elder", "A2"));
    List<CuttingRow> cuttings = store.setups().cuttings("sill");
    assertEquals(List.of("A1", "A2", "A2"), cuttings.stream().map(CuttingRow::cup).toList());
    assertEquals(EIGHT.plus(Duration.ofDays(4)), cuttings.get(0).gone());
    assertEquals(EIGHT.plus(Duration.ofDays(4)), cuttings.get(1).gone());
    assertEquals(null, cuttings.get(2).gone());
    assertEquals("{\"plant\":\"elder\"}", cuttings.get(2).told());
  }

  @Test
  void noQuestionReadsAWholeTable() {
    add("A1/mass", EIGHT, 2000);
    Set<String> asked = new TreeSet<>();
    store
        .jdbi()
        .setSqlLogger(
            new SqlLogger() {
              @Override
              public void logBeforeExecution(StatementContext context) {
                asked.add(context.getParsedSql().getSql());
              }
            });
    askEverything();
    List<String> slow =
        List.copyOf(asked).stream()
            .filter(sql -> sql.startsWith("SELECT") || sql.startsWith("DELETE"))
            .filter(sql -> !sql.matches(".*FROM (benches|users|bench_keys|aside|setups)\\b.*"))
            .filter(this::readsAWholeTable)
            .toList();
    assertEquals(List.of(), slow);
    assertTrue(asked.size() > 15, "statements seen: " + asked.size());
  }

  private void askEverything() {
    Instant later = EIGHT.plus(Duration.ofDays(90));
    store.readings().newest("sill", "A1/mass");
    store.readings().between("sill", "A1/mass", EIGHT, later);
    store.readings().overview("sill", "A1/mass", EIGHT, later);
    store.readings().names("sill");
    store.events().find(new Search("sill", null, null, EIGHT, later, 10));
    store.events().find(new Search("sill", "A1", "dose", EIGHT, later, 10));
    store.events().after("sill", "A1", "decision", EIGHT, 10);
    store.events().kept("sill", "e");
    setUp(1, "vine", "A1");
    store.setups().find("sill");
    store.setups().cuttings("sill");
    store.alerts().open("sill");
    store.benches().cups("sill");
    store.orders().recent("sill", 10);
    store.notices().due(EIGHT);
    store.users().inSession("d", EIGHT);
    store.write(
        handle -> {
          store.events().insert(handle, event(1, EIGHT));
          store.events().advanceKept(handle, "sill", "e");
          store.events().nextAfter(handle, "sill", "e", 1);
          store.events().highest(handle, "sill", "e");
          store.events().gaps("sill");
          store.orders().insert(handle, new OrderRow("sill", "o", "hold", EIGHT, "{}"));
        });
    new StoreMaintenance(store, () -> later, Retention.USUAL).run();
  }

  private void dose(long seq, Instant at, String cup, String why, double plainMl, double feedMl) {
    String data =
        "{\"cup\":\"%s\",\"why\":\"%s\",\"plain_ml\":%s,\"feed_ml\":%s}"
            .formatted(cup, why, plainMl, feedMl);
    store.write(
        handle ->
            store.events().insert(handle, new EventRow("sill", "e", seq, at, "dose", cup, data)));
  }

  @Test
  void whatWasGivenIsSummedByCupAndCauseWithinTheTime() {
    dose(1, EIGHT.minusMillis(1), "A1", "due", 100, 0);
    dose(2, EIGHT, "A1", "due", 20.5, 9.5);
    dose(3, EIGHT.plusSeconds(60), "A1", "due", 10, 0);
    dose(4, EIGHT.plusSeconds(120), "A1", "hand", 50, 0);
    dose(5, EIGHT.plusSeconds(180), "A2", "due", 5, 0);
    dose(6, EIGHT.plusSeconds(240), "A2", "due", 100, 0);
    assertEquals(
        List.of(
            new Events.Given("A1", "due", 2, 30.5, 9.5),
            new Events.Given("A1", "hand", 1, 50, 0),
            new Events.Given("A2", "due", 1, 5, 0)),
        store.events().given("sill", EIGHT, EIGHT.plusSeconds(240)));
    assertEquals(List.of(), store.events().given("other", EIGHT, EIGHT.plusSeconds(240)));
  }
}
