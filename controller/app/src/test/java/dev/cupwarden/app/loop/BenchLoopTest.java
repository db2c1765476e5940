package dev.cupwarden.app.loop;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.pi4j.context.Context;
import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.AirState;
import dev.cupwarden.core.BenchState;
import dev.cupwarden.core.Tick;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.orders.Hold;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.SimulatedBench;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The loop on a simulated bench with the real drivers and a real journal. */
class BenchLoopTest {
  private static final Instant START = Instant.parse("2027-01-10T06:00:00Z");

  @TempDir Path folder;
  private Bench bench;
  private String benchText;
  private SimulatedBench world;
  private AcceleratedTime time;
  private Context context;
  private BenchBoard board;
  private Journal journal;
  private final List<TickReport> reports = new CopyOnWriteArrayList<>();

  @BeforeEach
  void dryCupsOnTheBench() throws Exception {
    benchText = BackRoom.text();
    bench = BenchFile.read("back-room.yaml", benchText);
    world = SimulatedBench.of(bench, 7, START.minus(Duration.ofDays(5)));
    world.advanceTo(START);
    time = new AcceleratedTime(world.time(), AcceleratedTime.UNBOUNDED);
    context = world.newContext();
    board = BenchBoard.open(context, bench, time, world::oneWire);
    journal = Journal.open(folder.resolve("journal.db"));
  }

  @AfterEach
  void end() throws Exception {
    journal.close();
    board.close();
    context.shutdown();
  }

  private BenchLoop loop(BenchHardware hardware, Optional<String> trouble) throws Exception {
    return BenchLoop.resume(parts(hardware, trouble));
  }

  private BenchLoop.Parts parts(BenchHardware hardware, Optional<String> trouble) {
    return new BenchLoop.Parts(
        bench, benchText, hardware, journal, time, reports::add, "test", trouble);
  }

  private void ticks(BenchLoop loop, int count) throws Exception {
    for (int i = 0; i < count; i++) {
      loop.tick();
      time.until(time.nanos() + bench.tick().toNanos());
    }
  }

  private List<JournalExport.Pass> passes() throws Exception {
    try (JournalExport export = JournalExport.open(journal.file())) {
      return export.passes();
    }
  }

  @Test
  void whyACupIsNotWateredBeforeTheWindowIsPutDownOnceAndSoIsItsEnd() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
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
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
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
    BenchLoop loop = loop(dying, Optional.empty());
    while (!Files.exists(cut)) {
      ticks(loop, 1);
    }
    JournalExport.Pass first = passes().get(0);
    journal.close();
    reports.clear();
    journal = Journal.open(cut.resolve("journal.db"));
    BenchLoop after = loop(BenchHardware.of(board), Optional.empty());
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
    BenchLoop loop = loop(never, Optional.empty());
    try {
      ticks(loop, 400);
    } catch (StackOverflowError dead) {
      assertTrue(passes().get(passes().size() - 1).outcome() == null);
    }
    Instant restart = time.wall();
    reports.clear();
    BenchLoop after = loop(BenchHardware.of(board), Optional.empty());
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
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
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
    loop(remembering, Optional.empty());
    assertEquals(givenMl, told[0], 0.1);
    world.time().advanceBy(Duration.ofHours(25));
    told[0] = 0;
    loop(remembering, Optional.empty());
    assertEquals(0, told[0], "a day later it no longer counts");
  }

  @Test
  void withoutATrueJournalAllIsReadAndNothingWatered() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.of("the file is damaged"));
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
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
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
  void editedBenchFileIsTakenUpWithoutForgettingWhatWasGiven() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
    ticks(loop, 60);
    int given = journalState().at("/cups/C4/given").size();
    assertTrue(given > 0);
    benchText =
        benchText
            .replace(
                "plant: elder, struck: 2026-10-17, stage: circling",
                "plant: elder, stage: toughened")
            .replaceAll("(?m)^  A4: .*$", "");
    bench = BenchFile.read("back-room.yaml", benchText);
    BenchLoop edited = loop(BenchHardware.of(board), Optional.empty());
    ticks(edited, 1);
    JsonNode state = journalState();
    assertTrue(state.at("/cups/C4/given").size() >= given);
    assertEquals("toughened", state.at("/cups/C4/setup/stage").asText());
    assertTrue(state.at("/cups/A4").isMissingNode());
    assertFalse(state.at("/cups/A1").isMissingNode());
  }

  @Test
  void cupThatAnOrderAddedKeepsItsLedgerWhenItIsWrittenIntoTheFile() throws Exception {
    String whole = benchText;
    benchText = whole.replaceAll("(?m)^  C4: .*$", "");
    bench = BenchFile.read("back-room.yaml", benchText);
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
    orderedNow(
        "add",
        ", \"cup\": \"C4\", \"vessel\": \"short\", \"mix\": \"coir-perlite\", \"plant\": \"elder\","
            + " \"stage\": \"circling\", \"cutting\": \"15 g\"");
    ticks(loop, 1);
    orderedNow("watered", ", \"cup\": \"C4\", \"ml\": 30, \"strength\": 0.25");
    ticks(loop, 1);
    assertEquals(1, journalState().at("/cups/C4/given").size());
    benchText = whole;
    bench = BenchFile.read("back-room.yaml", benchText);
    ticks(loop(BenchHardware.of(board), Optional.empty()), 1);
    assertTrue(journalState().at("/cups/C4/given/0/strength").asDouble() > 0);
  }

  @Test
  void cupInAVesselThatTheFileNoLongerHasIsRefusedInASentence() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
    ticks(loop, 1);
    orderedNow(
        "repot", ", \"cup\": \"A1\", \"vessel\": \"spare\", \"mix\": \"%s\"".formatted(mix("A1")));
    benchText =
        benchText.replaceFirst(
            "(?m)^vessels:\n",
            "vessels:\n  spare: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}\n");
    bench = BenchFile.read("back-room.yaml", benchText);
    ticks(loop(BenchHardware.of(board), Optional.empty()), 1);
    assertEquals("done", outcomeOf("repot"));
    benchText = benchText.replaceFirst("(?m)^  spare: .*\n", "");
    bench = BenchFile.read("back-room.yaml", benchText);
    SetupException refused =
        assertThrows(SetupException.class, () -> loop(BenchHardware.of(board), Optional.empty()));
    assertTrue(refused.getMessage().contains("vessel spare"), refused.getMessage());
  }

  private String mix(String cup) {
    return bench.cups().get(cup).mix();
  }

  @Test
  void whatAThermometerSaidThatIsNoLongerThereIsForgotten() throws Exception {
    ticks(loop(BenchHardware.of(board), Optional.empty()), 1);
    BenchHardware hardware = BenchHardware.of(board);
    assertNotNull(Resumption.of(parts(hardware, Optional.empty())).state().air().rootC());
    benchText = benchText.replaceFirst("(?m)^  root: .*\\n", "");
    bench = BenchFile.read("back-room.yaml", benchText);
    AirState air = Resumption.of(parts(hardware, Optional.empty())).state().air();
    assertNull(air.rootC());
    assertNotNull(air.airC());
  }

  @Test
  void roundTakesNoLongerThanATick() throws Exception {
    benchText = benchText.replaceFirst("(?m)^tick: .*$", "tick: 1 min");
    bench = BenchFile.read("back-room.yaml", benchText);
    assertEquals(Duration.ofMinutes(1), bench.tick());
    world.time().advanceBy(Duration.ofDays(4)); // so that many are due at once
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
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
  void strictHoldOfAPersonStandsWhileTheClockIsInDoubt() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
    ticks(loop, 3);
    world.time().setWall(time.wall().minus(Duration.ofHours(1)));
    ticks(loop, 3);
    assertTrue(hold().rescue());
    Instant until = time.wall().plus(Duration.ofHours(2));
    orderedNow("hold", ", \"rescue\": false, \"until\": \"" + until + "\"");
    ticks(loop, 5);
    assertFalse(hold().rescue(), "a rescue would pump as well");
    orderedNow("clear", "");
    ticks(loop, 3);
    assertFalse(hold().rescue(), "the doubt is over, the hold is not");
    ticks(loop, 24);
    assertEquals(List.of(), last().bench().holds());
  }

  private Hold hold() {
    return last().step().state().hold();
  }

  private JsonNode journalState() throws Exception {
    try (JournalExport export = JournalExport.open(journal.file())) {
      return Json.MAPPER.valueToTree(export.state().orElseThrow());
    }
  }

  @Test
  void clockThatJumpsAYearLetsOnlyRescuesThroughUntilAPersonHasLooked() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
    ticks(loop, 30);
    Instant before = reports.get(29).at();
    world.time().setWall(time.wall().plus(Duration.ofDays(365)));
    assertOnlyRescuesUntilTheClockIsRight(loop, before);
  }

  @Test
  void startAYearAheadLetsOnlyRescuesThroughAsWell() throws Exception {
    ticks(loop(BenchHardware.of(board), Optional.empty()), 30);
    Instant before = reports.get(29).at();
    world.time().setWall(time.wall().plus(Duration.ofDays(365)));
    assertOnlyRescuesUntilTheClockIsRight(loop(BenchHardware.of(board), Optional.empty()), before);
  }

  private void assertOnlyRescuesUntilTheClockIsRight(BenchLoop loop, Instant before)
      throws Exception {
    int first = reports.size();
    ticks(loop, 30);
    TickReport last = last();
    assertEquals(150.0, minutes(before, last.at()), 10);
    assertEquals(List.of("*"), last.bench().holds());
    assertTrue(
        reports.subList(first, reports.size()).stream()
            .flatMap(report -> report.advice().passes().stream())
            .allMatch(pass -> pass.why().equals("rescue")));
    world.time().setWall(last.at().plus(bench.tick()));
    ticks(loop, 3);
    assertEquals(List.of(), last().bench().holds());
    assertEquals(List.of("raised", "cleared"), toldOfTheClock());
  }

  private List<String> toldOfTheClock() throws Exception {
    try (Outbox outbox = Outbox.of(journal)) {
      return outbox.eventsAfter("", 0, 10_000).stream()
          .filter(event -> event.data().path("code").asText().equals("clock"))
          .map(event -> event.data().get("state").asText())
          .toList();
    }
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
      BenchLoop loop = loop(locking, Optional.empty());
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
  void alertOfTheLoopsOwnIsClearedByTheNextStartIfItIsOver() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
    ticks(loop, 3);
    Instant right = time.wall();
    world.time().setWall(right.plus(Duration.ofDays(365)));
    ticks(loop, 3);
    world.time().setWall(right.plus(Duration.ofHours(1)));
    BenchLoop next = loop(BenchHardware.of(board), Optional.empty());
    ticks(next, 3);
    assertEquals(List.of("raised", "cleared"), toldOfTheClock());
  }

  @ParameterizedTest
  @ValueSource(ints = {5, -3})
  void personSetsAClockThatJumpedRightByAnOrderAndIsHeardFromThenOn(int hours) throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
    ticks(loop, 3);
    world.time().setWall(time.wall().plus(Duration.ofHours(hours)));
    ticks(loop, 3);
    assertEquals(List.of("*"), last().bench().holds());
    orderedNow("clear", "");
    ticks(loop, 1);
    assertEquals("done", outcomeOf("clear"));
    ticks(loop, 2);
    assertEquals(List.of(), last().bench().holds());
    Instant until = time.wall().plus(Duration.ofHours(1));
    orderedNow("hold", ", \"until\": \"" + until + "\"");
    ticks(loop, 1);
    assertEquals("done", outcomeOf("hold"));
    ticks(loop, 10);
    assertEquals(List.of("*"), last().bench().holds());
    ticks(loop, 4);
    assertEquals(List.of(), last().bench().holds(), "over after an hour, or a tenth more");
  }

  /** Given by the wall clock, for ten minutes from now. */
  private void orderedNow(String kind, String fields) throws Exception {
    Instant now = time.wall();
    Instant expires = now.plus(Duration.ofMinutes(10));
    try (Outbox outbox = Outbox.of(journal)) {
      outbox.receive(
          kind,
          now,
          expires,
          """
          {"id": "%1$s", "kind": "%1$s", "by": "gardener", "issued": "%2$s", "expires": "%3$s"%4$s}"""
              .formatted(kind, now, expires, fields));
    }
  }

  private String outcomeOf(String order) {
    return last().advice().receipts().stream()
        .filter(receipt -> order.equals(receipt.id()))
        .map(receipt -> receipt.outcome() + Objects.requireNonNullElse(receipt.why(), ""))
        .collect(Collectors.joining());
  }

  private TickReport last() {
    return reports.get(reports.size() - 1);
  }

  private static double minutes(Instant from, Instant to) {
    return Duration.between(from, to).toSeconds() / 60.0;
  }

  @Test
  void journalReplaysToTheVerySameDecisions() throws Exception {
    BenchLoop loop = loop(BenchHardware.of(board), Optional.empty());
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
