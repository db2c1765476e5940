package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import com.pi4j.context.Context;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.ValveFault;
import dev.cupwarden.simulator.chips.ChipFault;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;

/**
 * One bench through a morning with power cuts, in virtual time: drivers, loop and journal are the
 * real ones. Power can fail wherever the world could tell the difference: before and after each
 * transaction of the journal, and at each switching of an output. All of it follows from the seed.
 *
 * <p>SQLite's own promise, that a transaction is on the disk wholly or not at all, is taken for
 * granted, but what a cut leaves behind the last one is not: a torn rest is put there at times.
 */
final class PowerCutRun {
  private static final int TICKS = 14;
  private static final int MOST_CUTS = 4;

  /** About as many places as a morning has between two cuts. */
  private static final int PLACES = 90;

  /** Bias, run to run and air of the simulated pump, 5 sd, and its dribble. */
  private static final double PUMP_ERROR = 0.2;

  private static final double DRIBBLE_ML = 0.6;

  /** The power fails: nothing of the program runs on. */
  private static final class PowerCut extends Error {
    private static final long serialVersionUID = 1L;

    PowerCut() {
      super("power cut", null, false, false);
    }
  }

  private final long seed;
  private final SplittableRandom random;
  private final Bench bench;
  private final String benchText;
  private final Path root;
  private final SimulatedBench world;
  private final AcceleratedTime time;
  private final Map<String, Double> waterInMl = new TreeMap<>();
  private final List<String> put = new ArrayList<>();
  private Path folder;
  private int cuts;
  private int places;
  private int cutAt;
  private boolean dead;

  PowerCutRun(long seed, Bench bench, String benchText, Path root) {
    this.seed = seed;
    this.random = new SplittableRandom(seed);
    this.bench = bench;
    this.benchText = benchText;
    this.root = root;
    Instant start = Instant.parse("2026-11-28T08:05:00Z").plusSeconds(random.nextInt(3600));
    Duration dried = Duration.ofHours(96 + random.nextInt(120));
    this.world = SimulatedBench.of(bench, random.nextLong(), start.minus(dried));
    world.advanceTo(start);
    this.time = new AcceleratedTime(world.time(), AcceleratedTime.UNBOUNDED);
    bench.cups().keySet().forEach(cup -> waterInMl.put(cup, world.cup(cup).balance().waterInMl()));
    world.onSwitch(this::place);
  }

  /** A place where power can fail. */
  private void place() {
    if (!dead && places++ == cutAt) {
      dead = true;
      world.cutPower();
      throw new PowerCut();
    }
  }

  /**
   * Runs it.
   *
   * @return how many cuts there were
   * @throws AssertionError when a dose was given twice or a ledger entry is lost
   */
  int run() throws Exception {
    folder = Files.createDirectories(root.resolve("s" + seed + "-0"));
    breakSomething();
    int ticksLeft = TICKS;
    while (ticksLeft > 0) {
      cutAt = cuts < MOST_CUTS ? random.nextInt(PLACES) : Integer.MAX_VALUE;
      places = 0;
      dead = false;
      ticksLeft = power(ticksLeft);
      if (dead) {
        cuts++;
        off();
      }
    }
    judge();
    deleteFolder();
    return cuts;
  }

  private void breakSomething() {
    int what = random.nextInt(6);
    String cup = bench.cups().firstKey();
    if (what == 0) {
      world
          .faults()
          .breakChip(bench.cups().get(cup).wiring().scale().orElseThrow(), ChipFault.SILENT);
    } else if (what == 1) {
      world
          .faults()
          .breakValve(bench.cups().get(cup).wiring().valve().orElseThrow(), ValveFault.STUCK_SHUT);
    }
  }

  /** From power on to the end or the next cut; returns the ticks that are left. */
  private int power(int ticks) throws Exception {
    Context context = world.newContext();
    Journal journal = Journal.open(folder.resolve("journal.db"));
    int left = ticks;
    try {
      place();
      BenchBoard board = BenchBoard.open(context, bench, time, world::oneWire);
      if (world.linesOn() != 0) {
        throw failure("an output is on after the start");
      }
      BenchLoop loop = BenchLoop.resume(parts(board, journal));
      place();
      time.until(time.nanos() + loop.settling().toNanos());
      while (left > 0) {
        loop.tick();
        left--;
        place();
        time.until(time.nanos() + bench.tick().toNanos());
      }
      cutAt = Integer.MAX_VALUE; // the end is meant
      board.close();
    } catch (PowerCut cut) {
      copyJournal();
    } finally {
      journal.close();
      context.shutdown();
    }
    return left;
  }

  private BenchLoop.Parts parts(BenchBoard board, Journal journal) {
    return new BenchLoop.Parts(
        bench,
        benchText,
        hardware(board),
        journal,
        time,
        report -> {},
        "test",
        Optional.empty(),
        RunMode.AS_LEFT);
  }

  /** The drivers, with places before and after what lies between two writes. */
  private BenchHardware hardware(BenchBoard board) {
    return new BenchHardware.OnBoard(board) {
      @Override
      public BoardReadings read() {
        BoardReadings seen = board.read();
        place();
        return seen;
      }

      @Override
      public DoseOutcome give(AllowedPass pass) {
        put.add(pass.cup());
        place();
        DoseOutcome outcome = board.give(pass);
        place();
        return outcome;
      }
    };
  }

  /** The disk as the cut leaves it: what was committed, and at times a torn rest behind it. */
  private void copyJournal() throws IOException {
    Path next = Files.createDirectories(root.resolve("s" + seed + "-" + (cuts + 1)));
    for (String end : List.of("", "-wal")) {
      Path file = folder.resolve("journal.db" + end);
      if (Files.exists(file)) {
        Files.copy(file, next.resolve("journal.db" + end));
      }
    }
    Path wal = next.resolve("journal.db-wal");
    if (Files.exists(wal) && random.nextInt(3) == 0) {
      byte[] torn = new byte[random.nextInt(9000)];
      for (int i = 0; i < torn.length; i++) {
        torn[i] = (byte) random.nextInt();
      }
      Files.write(wal, torn, StandardOpenOption.APPEND);
    }
    folder = next;
  }

  /** Off for seconds to an hour; a board without a battery may come back with an old clock. */
  private void off() {
    Instant went = time.wall();
    Duration offFor = Duration.ofSeconds(1L << random.nextInt(12));
    time.until(time.nanos() + offFor.toNanos());
    if (random.nextInt(4) == 0) {
      world.time().setWall(went.minusSeconds(random.nextInt(1800)));
    }
  }

  private void judge() throws Exception {
    List<JournalExport.Pass> passes;
    JsonNode state;
    try (JournalExport export = JournalExport.open(folder.resolve("journal.db"))) {
      passes = export.passes();
      state = Json.MAPPER.valueToTree(export.state().orElseThrow());
    }
    for (String cup : bench.cups().keySet()) {
      List<JournalExport.Pass> own = passes.stream().filter(p -> p.cup().equals(cup)).toList();
      JsonNode given = state.at("/cups/" + cup + "/doses/given");
      if (given.size() != own.size()) {
        throw failure(cup + ": the ledger has %d of %d".formatted(given.size(), own.size()));
      }
      double orderedMl = 0;
      for (int i = 0; i < own.size(); i++) {
        orderedMl += own.get(i).plainMl() + own.get(i).feedMl();
        if (own.get(i).outcome() == null) {
          throw failure(cup + ": a pass has no outcome");
        }
        if (i > 0) {
          Instant last = Instant.parse(own.get(i - 1).at());
          if (Instant.parse(own.get(i).at()).isBefore(last.plus(bench.watering().soak()))) {
            throw failure(cup + ": no soak after the pass of " + last);
          }
        }
      }
      double gotMl = world.cup(cup).balance().waterInMl() - waterInMl.get(cup);
      double mostMl = orderedMl * (1 + PUMP_ERROR) + DRIBBLE_ML * own.size();
      if (gotMl > mostMl) {
        throw failure(cup + ": got %.1f mL, ledger %.1f mL".formatted(gotMl, orderedMl));
      }
      long begun = put.stream().filter(cup::equals).count();
      if (begun > own.size()) {
        throw failure(cup + ": %d passes begun, %d put down".formatted(begun, own.size()));
      }
    }
    judgeEvents(passes.size());
  }

  private void judgeEvents(int passes) throws Exception {
    try (Journal journal = Journal.open(folder.resolve("journal.db"));
        Outbox outbox = Outbox.of(journal)) {
      List<Event> events = outbox.eventsAfter("", 0, 100_000);
      for (int i = 0; i < events.size(); i++) {
        if (events.get(i).seq() != i + 1) {
          throw failure("event " + (i + 1) + " is missing");
        }
      }
      long doses = events.stream().filter(event -> event.kind().equals("dose")).count();
      if (doses != passes) {
        throw failure("%d doses told of %d".formatted(doses, passes));
      }
    }
  }

  private AssertionError failure(String what) {
    return new AssertionError("seed " + seed + " after " + cuts + " cuts: " + what);
  }

  private void deleteFolder() throws IOException {
    for (int i = 0; i <= cuts; i++) {
      Path gone = root.resolve("s" + seed + "-" + i);
      try (var files = Files.list(gone)) {
        for (Path file : files.toList()) {
          Files.delete(file);
        }
      }
      Files.delete(gone);
    }
  }
}
