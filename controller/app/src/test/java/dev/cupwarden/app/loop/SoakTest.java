package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.core.longrun.FolderInMemory;
import dev.cupwarden.core.longrun.TestReport;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.simulator.SimulatedBench;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The whole loop for long: chips, drivers, decisions, journal and a host that keeps what it is
 * told, in virtual time. A thousand ticks in a build, a million with {@code -Plong}: at five
 * minutes a tick that is nine and a half years.
 */
@Tag("long")
class SoakTest {
  private static final Instant START = Instant.parse("2026-11-28T08:05:00Z");
  private static final long SEED = 1;
  private static final int POINTS = 20;

  /** What a heap may differ after a collection while nothing grows. */
  private static final double HEAP_PLAY_MB = 4;

  /** By then all that is kept for so many days is in the journal: passes go last, after 400. */
  private static final Duration FILLED = Duration.ofDays(420);

  /** Of a journal that is full: pages that are free today and used tomorrow. */
  private static final double JOURNAL_PLAY = 1.1;

  @TempDir(factory = FolderInMemory.class)
  Path folder;

  private final List<Point> points = new ArrayList<>();

  /**
   * What there was after so many ticks.
   *
   * @param passes since the start
   * @param heapMb after a full collection
   */
  private record Point(int ticks, long passes, double heapMb, double journalMb) {}

  @Test
  void nothingGrows() throws Exception {
    long begun = System.nanoTime();
    int ticks = Integer.getInteger("soak.ticks", 1000);
    String text = PowerCutTest.threeCups();
    Bench bench = BenchFile.read("back-room.yaml", text);
    SimulatedBench world = SimulatedBench.of(bench, SEED, START.minus(Duration.ofDays(5)));
    world.advanceTo(START);
    long passes = run(ticks, text, bench, world);
    assertTrue(passes > 0, "nothing was watered");
    double heapGrewMb = points.get(POINTS - 1).heapMb() - points.get(1).heapMb();
    assertTrue(heapGrewMb < HEAP_PLAY_MB, () -> "the heap grows: " + points);
    List<Point> filled =
        points.stream()
            .filter(point -> bench.tick().multipliedBy(point.ticks()).compareTo(FILLED) > 0)
            .toList();
    if (!filled.isEmpty()) {
      assertTrue(passes > filled.get(0).passes(), () -> "watered no more: " + points);
    }
    for (Point point : filled) {
      double mostMb = filled.get(0).journalMb() * JOURNAL_PLAY;
      assertTrue(point.journalMb() < mostMb, () -> "the journal grows: " + points);
    }
    TestReport.put("Soak", Duration.ofNanos(System.nanoTime() - begun), text(ticks, passes));
  }

  /** Returns how many passes were given. */
  private long run(int ticks, String text, Bench bench, SimulatedBench world) throws Exception {
    Path file = folder.resolve("journal.db");
    AcceleratedTime time = new AcceleratedTime(world.time(), AcceleratedTime.UNBOUNDED);
    Context context = world.newContext();
    long doses = 0;
    try (Journal journal = Journal.open(file);
        Outbox outbox = Outbox.of(journal);
        BenchBoard board = BenchBoard.open(context, bench, time, world::oneWire)) {
      BenchLoop loop =
          BenchLoop.resume(
              new BenchLoop.Parts(
                  bench,
                  text,
                  BenchHardware.of(board),
                  journal,
                  time,
                  report -> {},
                  "test",
                  Optional.empty(),
                  RunMode.AS_LEFT));
      time.until(time.nanos() + loop.settling().toNanos());
      for (int i = 1; i <= ticks; i++) {
        loop.tick();
        time.until(time.nanos() + bench.tick().toNanos());
        if (i % 100 == 0) {
          doses += keptByAHost(outbox);
          bench.tanks().forEach((tank, made) -> world.fillTo(tank, made.sizeMl()));
        }
        if (i % (ticks / POINTS) == 0 && points.size() < POINTS) {
          points.add(new Point(i, doses, heapMb(), Files.size(file) / 1e6));
        }
      }
      assertEquals(0, world.linesOn());
    } finally {
      context.shutdown();
    }
    return doses;
  }

  private static long keptByAHost(Outbox outbox) throws Exception {
    List<Event> events = outbox.eventsAfter("", 0, 10_000);
    if (!events.isEmpty()) {
      Event last = events.get(events.size() - 1);
      outbox.kept(new Kept(last.epoch(), last.seq()));
    }
    List<Outbox.Pack> packs = outbox.packsAfter(0, 1_000);
    outbox.sent(packs.stream().map(Outbox.Pack::tick).toList());
    return events.stream().filter(event -> event.kind().equals("dose")).count();
  }

  private static double heapMb() {
    System.gc();
    Runtime now = Runtime.getRuntime();
    return (now.totalMemory() - now.freeMemory()) / 1e6;
  }

  private String text(int ticks, long passes) {
    StringBuilder text = new StringBuilder();
    text.append(
        """
        %,d ticks of the whole loop on a simulated bench of three cups, seed %d, %,d passes: neither \
        heap nor journal grows.

        | ticks | passes | heap after a full collection, MB | journal, MB |
        |---|---|---|---|
        """
            .formatted(ticks, SEED, passes));
    points.forEach(
        point ->
            text.append(
                "| %,d | %,d | %.1f | %.1f |%n"
                    .formatted(point.ticks(), point.passes(), point.heapMb(), point.journalMb())));
    return text.toString();
  }
}
