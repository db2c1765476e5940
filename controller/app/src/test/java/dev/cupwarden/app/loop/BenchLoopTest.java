package dev.cupwarden.app.loop;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Ticks: what is decided, put down and given, and in which order. */
class BenchLoopTest extends LoopOnABench {
  @Test
  void whyACupIsNotWateredBeforeTheWindowIsPutDownOnceAndSoIsItsEnd() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 30);
    try (Outbox outbox = Outbox.of(journal)) {
      List<Event> decisions =
          outbox.eventsAfter("", 0, 10_000).stream()
              .filter(event -> event.kind().equals("decision") && "A1".equals(event.cup()))
              .toList();
      assertEquals("window", decisions.get(0).data().at("/reasons/0/code").asText());
      assertTrue(decisions.size() < 12, "told when it changes: " + decisions.size());
      Event last = decisions.get(decisions.size() - 1);
      assertTrue(
          last.data().findValuesAsText("code").stream().noneMatch("window"::equals),
          last.data()::toString);
    }
    assertEquals(bench.cups().keySet(), reports.get(0).setup().cups().keySet());
    assertTrue(reports.get(0).setup().sameAs(reports.get(29).setup()), "nobody changed it");
  }

  @Test
  void dryCupsAreWateredInTheWindowAndAllIsPutDown() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 24);
    assertEquals(List.of(), passes(), "before the window opens");
    double before = world.tankMl().values().stream().mapToDouble(Double::doubleValue).sum();
    ticks(loop, 24);
    List<JournalExport.Pass> given = passes();
    assertFalse(given.isEmpty());
    assertTrue(given.stream().allMatch(pass -> "given".equals(pass.outcome())), given::toString);
    double orderedMl = given.stream().mapToDouble(p -> p.plainMl() + p.feedMl()).sum();
    double drawnMl =
        before - world.tankMl().values().stream().mapToDouble(Double::doubleValue).sum();
    assertEquals(orderedMl, drawnMl, 0.25 * orderedMl, "as far as the pump's own error");
    assertEquals(0, world.linesOn());
    try (Outbox outbox = Outbox.of(journal)) {
      List<Event> doses =
          outbox.eventsAfter("", 0, 10_000).stream().filter(e -> e.kind().equals("dose")).toList();
      assertEquals(given.size(), doses.size());
    }
  }

  @Test
  void powerCutInTheMidstOfAPassGivesNothingTwice() throws Exception {
    Path cut = folder.resolve("cut");
    BenchHardware dying =
        new BenchHardware.OnBoard(board) {
          @Override
          public DoseOutcome give(AllowedPass pass) {
            copyJournal(cut);
            return board.give(pass);
          }
        };
    BenchLoop loop = loop(dying);
    while (!Files.exists(cut)) {
      ticks(loop, 1);
    }
    JournalExport.Pass first = passes().get(0);
    journal.close();
    reports.clear();
    journal = Journal.open(cut.resolve("journal.db"));
    BenchLoop after = loop();
    assertEquals("unknown", passes().get(0).outcome());
    assertEquals(first.cup(), passes().get(0).cup());
    ticks(after, 2);
    assertTrue(
        passes().stream().skip(1).noneMatch(pass -> pass.cup().equals(first.cup())),
        "the cup soaks first, as after a pass that was given");
    assertTrue(reports.get(0).advice().cups().get(first.cup()).checks().contains("soak"));
  }

  private void copyJournal(Path to) {
    try {
      if (!Files.exists(to)) {
        Files.createDirectories(to);
        for (String end : List.of("", "-wal")) {
          Files.copy(folder.resolve("journal.db" + end), to.resolve("journal.db" + end));
        }
      }
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Test
  void afterACutOffPassTheFirstTickWaitsForOneSoak() throws Exception {
    BenchHardware never =
        new BenchHardware.OnBoard(board) {
          @Override
          public DoseOutcome give(AllowedPass pass) {
            throw new StackOverflowError("the process dies here");
          }
        };
    BenchLoop loop = loop(never);
    try {
      ticks(loop, 400);
    } catch (StackOverflowError dead) {
      assertTrue(passes().get(passes().size() - 1).outcome() == null);
    }
    Instant restart = time.wall();
    reports.clear();
    BenchLoop after = loop();
    Thread thread = new Thread(after::run);
    thread.start();
    await("a tick").atMost(Duration.ofSeconds(20)).until(() -> !reports.isEmpty());
    after.stop();
    thread.join(10_000);
    Instant first = reports.get(0).at();
    assertFalse(first.isBefore(restart.plus(bench.watering().soak())), first + " " + restart);
  }

  @Test
  void onTimeOfTheLastDayIsToldToTheBoardAfterARestart() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 60);
    double givenMl = passes().stream().mapToDouble(p -> p.plainMl() + p.feedMl()).sum();
    double[] told = new double[1];
    BenchHardware remembering =
        new BenchHardware.OnBoard(board) {

          @Override
          public void ranBefore(Duration ago, double ml) {
            assertFalse(ago.isNegative());
            told[0] += ml;
          }
        };
    loop(remembering);
    assertEquals(givenMl, told[0], 0.1);
    // The program runs on, so that nobody need vouch for the clock; held, it gives nothing more.
    orderedNow("hold", ", \"until\": \"" + time.wall().plus(Duration.ofHours(30)) + "\"");
    ticks(loop, 25 * 12 + 1);
    told[0] = 0;
    loop(remembering);
    assertEquals(0, told[0], "a day later it no longer counts");
  }

  @Test
  void withoutATrueJournalAllIsReadAndNothingWatered() throws Exception {
    BenchLoop loop =
        BenchLoop.resume(parts(BenchHardware.of(board), Optional.of("the file is damaged")));
    ticks(loop, 60);
    assertEquals(List.of(), passes());
    TickReport last = last();
    assertEquals(12, last.cups().size());
    assertEquals(List.of("*"), last.bench().holds());
    try (Outbox outbox = Outbox.of(journal)) {
      List<Event> alerts =
          outbox.eventsAfter("", 0, 10_000).stream()
              .filter(event -> event.data().path("code").asText().equals("store-full"))
              .toList();
      assertEquals(1, alerts.size(), "raised once and never cleared");
      Event told = alerts.get(0);
      assertEquals("raised", told.data().get("state").asText());
      assertTrue(told.data().get("do").asText().contains("the file is damaged"));
    }
  }

  @Test
  void tickThatCannotBePutDownWatersNothing() throws Exception {
    BenchLoop loop = loop();
    while (reports.isEmpty() || last().doses().isEmpty()) {
      ticks(loop, 1);
    }
    Map<String, Double> before = world.tankMl();
    int passes = passes().size();
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + journal.file());
        Statement statement = other.createStatement()) {
      statement.execute("BEGIN IMMEDIATE");
      // Another cup would be due at the next tick, or this one after its soak.
      for (int i = 0; i < 2; i++) {
        assertThrows(JournalException.class, loop::tick);
        time.until(time.nanos() + bench.tick().toNanos());
      }
      statement.execute("ROLLBACK");
    }
    assertEquals(before, world.tankMl());
    assertEquals(passes, passes().size());
    ticks(loop, 4);
    assertTrue(passes().size() > passes, "goes on from the state before");
  }

  @Test
  void roundTakesNoLongerThanATick() throws Exception {
    edit("(?m)^tick: .*$", "tick: 1 min");
    assertEquals(Duration.ofMinutes(1), bench.tick());
    world.time().advanceBy(Duration.ofDays(4)); // so that many are due at once
    BenchLoop loop = loop();
    ticks(loop, 60 * 6);
    double mostMl = 60 * bench.board().orElseThrow().pump().mlPerS();
    for (TickReport report : reports) {
      double ml = report.doses().stream().mapToDouble(d -> d.plainMl() + d.feedMl()).sum();
      assertTrue(ml <= mostMl + 1e-9, report.at() + ": " + ml + " mL");
    }
    long cups = passes().stream().map(JournalExport.Pass::cup).distinct().count();
    assertTrue(cups > 3, cups + " cups");
  }

  @Test
  void outcomeThatCannotBePutDownEndsTheRoundAndComesWithTheNextTick() throws Exception {
    world.time().advanceBy(Duration.ofDays(4).plusHours(3)); // so that several are due at once
    int[] begun = new int[1];
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + journal.file());
        Statement lock = other.createStatement()) {
      BenchHardware locking =
          new BenchHardware.OnBoard(board) {
            @Override
            public DoseOutcome give(AllowedPass pass) {
              begun[0]++;
              try {
                lock.execute("BEGIN IMMEDIATE");
              } catch (java.sql.SQLException e) {
                throw new IllegalStateException(e);
              }
              return board.give(pass);
            }
          };
      BenchLoop loop = loop(locking);
      assertThrows(JournalException.class, () -> ticks(loop, 300));
      lock.execute("ROLLBACK");
      assertEquals(1, begun[0]);
      List<JournalExport.Pass> open = passes();
      assertTrue(open.size() > 1 && open.stream().allMatch(p -> p.outcome() == null), "" + open);
      ticks(loop, 1);
      assertTrue(passes().stream().limit(open.size()).noneMatch(p -> p.outcome() == null));
    }
  }

  @Test
  void journalReplaysToTheVerySameDecisions() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 60);
    StringBuilder lines = new StringBuilder();
    try (JournalExport export = JournalExport.open(journal.file())) {
      export.lines(0, lines);
    }
    Tick tick = new Tick(bench);
    BenchState state = tick.fresh();
    int number = 0;
    for (String line : lines.toString().lines().toList()) {
      Tick.Step step =
          tick.step(
              state, ObservationReader.read(line, bench.cups().keySet(), bench.tanks().keySet()));
      state = step.state();
      assertEquals(
          Json.MAPPER.writeValueAsString(reports.get(number++).advice()),
          Json.MAPPER.writeValueAsString(step.advice()));
    }
    assertEquals(60, number);
  }
}
