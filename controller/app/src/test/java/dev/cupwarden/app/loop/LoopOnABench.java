package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertFalse;

import com.pi4j.context.Context;
import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.SimulatedBench;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;

/** The loop on a simulated bench with the real drivers and a real journal. */
abstract class LoopOnABench {
  static final Instant START = Instant.parse("2027-01-10T06:00:00Z");

  @TempDir Path folder;
  Bench bench;
  SimulatedBench world;
  AcceleratedTime time;
  BenchBoard board;
  Journal journal;
  final List<TickReport> reports = new CopyOnWriteArrayList<>();
  RunMode mode = RunMode.AS_LEFT;
  String benchText;
  private Context context;

  @BeforeEach
  void dryCupsOnTheBench() throws Exception {
    readBench(BackRoom.text());
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

  /** The bench file, for the next loop; what is wired stays as it was. */
  void readBench(String text) throws SetupException {
    benchText = text;
    bench = BenchFile.read("back-room.yaml", text);
  }

  /** With part of the bench file edited. */
  void edit(String pattern, String replacement) throws SetupException {
    String edited = benchText.replaceFirst(pattern, replacement);
    assertFalse(edited.equals(benchText), "nothing was edited");
    readBench(edited);
  }

  BenchLoop loop() throws Exception {
    return loop(BenchHardware.of(board));
  }

  BenchLoop loop(BenchHardware hardware) throws Exception {
    return BenchLoop.resume(parts(hardware, Optional.empty()));
  }

  BenchLoop.Parts parts(BenchHardware hardware, Optional<String> trouble) {
    return new BenchLoop.Parts(
        bench, benchText, hardware, journal, time, reports::add, "test", trouble, mode);
  }

  void ticks(BenchLoop loop, int count) throws Exception {
    for (int i = 0; i < count; i++) {
      loop.tick();
      time.until(time.nanos() + bench.tick().toNanos());
    }
  }

  List<JournalExport.Pass> passes() throws Exception {
    try (JournalExport export = JournalExport.open(journal.file())) {
      return export.passes();
    }
  }

  /** Given by the wall clock, for ten minutes from now. */
  void orderedNow(String kind, String fields) throws Exception {
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

  String outcomeOf(String order) {
    return last().advice().receipts().stream()
        .filter(receipt -> order.equals(receipt.id()))
        .map(receipt -> receipt.outcome() + Objects.requireNonNullElse(receipt.why(), ""))
        .collect(Collectors.joining());
  }

  TickReport last() {
    return reports.get(reports.size() - 1);
  }
}
