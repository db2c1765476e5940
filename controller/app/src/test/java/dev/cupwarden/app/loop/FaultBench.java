package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.node.ObjectNode;
import com.pi4j.context.Context;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.OpenJournal;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.service.LifeSigns;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.VirtualTime;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * A bench with one of each part, in virtual time, on which something is broken: world and disk stay
 * while the program on them may be killed and started anew. Drivers, loop and journal are the real
 * ones.
 */
final class FaultBench implements AutoCloseable {
  /** Six in the morning of a winter's day; the window opens at eight. */
  static final Instant START = Instant.parse("2027-01-10T06:00:00Z");

  private static final Duration PUMP_LOOK = Duration.ofMillis(20);
  private static final Duration DRIED = Duration.ofDays(11);

  /** The program dies here. */
  static final class Killed extends Error {
    private static final long serialVersionUID = 1L;

    Killed() {
      super("killed", null, false, false);
    }
  }

  /** A sentence of the board about a part, when it was first said. */
  record Said(Instant at, String part) {}

  private final String benchText;
  private final Bench bench;
  private final SimulatedBench world;
  private final AcceleratedTime time;
  private final long startNanos;
  private final List<Said> hangs = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();
  private final List<Said> said = new ArrayList<>();
  private final Map<String, Double> byHandMl = new TreeMap<>();
  private final List<Instant> badTicks = new ArrayList<>();
  private Map<String, String> faultsNow = Map.of();
  private Instant broken;
  private Duration linesOff;
  private Path folder;
  private int lives;
  private int orders;
  private Runnable beforeReading = () -> {};
  private Context context;
  private BenchBoard board;
  private OpenJournal journal;
  private BenchLoop loop;
  private LifeSigns signs;
  private long nextTickNanos;

  FaultBench(Path folder) throws Exception {
    this.folder = Files.createDirectories(folder.resolve("0"));
    try (var in = FaultBench.class.getResourceAsStream("every-part.yaml")) {
      benchText = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    bench = BenchFile.read("every-part.yaml", benchText);
    world = SimulatedBench.of(bench, 11, START.minus(DRIED));
    world.advanceTo(START);
    time = new AcceleratedTime(world.time(), AcceleratedTime.UNBOUNDED);
    startNanos = time.nanos();
    powerOn();
  }

  Bench bench() {
    return bench;
  }

  SimulatedBench world() {
    return world;
  }

  BenchBoard board() {
    return board;
  }

  Journal journal() {
    return journal.journal();
  }

  Path journalFile() {
    return folder.resolve("journal.db");
  }

  AcceleratedTime time() {
    return time;
  }

  LifeSigns signs() {
    return signs;
  }

  /** The time as it passes; the bench's own clock may jump. */
  Instant now() {
    return START.plusNanos(time.nanos() - startNanos);
  }

  /** The fault is there from now on. */
  void breaksNow() {
    broken = now();
    linesOff = null;
    timeLines(broken);
  }

  /** Looks from now on until every output is off for the first time. */
  private void timeLines(Instant from) {
    var looks = new VirtualTime.Handle[1];
    if (world.linesOn() == 0) {
      linesOff = Duration.ZERO;
      return;
    }
    looks[0] =
        world
            .time()
            .every(
                PUMP_LOOK,
                () -> {
                  if (world.linesOn() == 0 || !from.equals(broken)) {
                    looks[0].close();
                    linesOff = from.equals(broken) ? Duration.between(from, now()) : linesOff;
                  }
                });
  }

  /** From the break until every output was off; none when they never were. */
  Optional<Duration> linesOff() {
    return Optional.ofNullable(linesOff);
  }

  /** Since when the fault is there. */
  Instant broken() {
    return broken;
  }

  /** Puts down in words what only this fault shows. */
  void note(String words) {
    notes.add(words);
  }

  /** Somebody apart from the loop has seen that it hangs. */
  void seenToHang(String by) {
    hangs.add(new Said(now(), by));
  }

  List<Said> signsOfHang() {
    return List.copyOf(hangs);
  }

  List<String> notes() {
    return List.copyOf(notes);
  }

  /** Notes how long from now the pump still runs. */
  void timePump() {
    Instant from = now();
    var looks = new VirtualTime.Handle[1];
    looks[0] =
        world
            .time()
            .every(
                PUMP_LOOK,
                () -> {
                  if (!world.pumpOn()) {
                    looks[0].close();
                    double s = Duration.between(from, now()).toMillis() / 1000.0;
                    note("pump off after %.1f s".formatted(s));
                  }
                });
  }

  /** Runs before each scan of the sensors, on the loop's thread. */
  void beforeReading(Runnable work) {
    beforeReading = work;
  }

  /** What the board said of its parts so far, each when it began. */
  List<Said> said() {
    return List.copyOf(said);
  }

  /** Ticks that could not be put down. */
  List<Instant> badTicks() {
    return List.copyOf(badTicks);
  }

  /** A program starts on what the last one left. */
  void powerOn() throws Exception {
    context = world.newContext();
    board = BenchBoard.open(context, bench, time, world::oneWire);
    journal = OpenJournal.orStandIn(journalFile());
    loop =
        BenchLoop.resume(
            new BenchLoop.Parts(
                bench,
                benchText,
                hardware(),
                journal.journal(),
                time,
                report -> {},
                "test",
                journal.trouble(),
                RunMode.AS_LEFT));
    signs = new LifeSigns(bench.tick(), loop.settling(), time.nanos());
    loop.tell(new Heard());
    nextTickNanos = time.nanos() + loop.settling().toNanos();
  }

  private final class Heard implements LoopSigns {
    @Override
    public void moved() {
      signs.moved(time.nanos());
    }

    @Override
    public void over(boolean well) {
      if (well) {
        signs.finished(time.nanos());
      } else {
        signs.failed();
        badTicks.add(now());
      }
    }
  }

  private BenchHardware hardware() {
    board.onBeat(() -> signs.beat(time.nanos()));
    return new BenchHardware.OnBoard(board) {
      @Override
      public BoardReadings read() {
        beforeReading.run();
        BoardReadings seen = board.read();
        seen.faults().keySet().stream()
            .filter(part -> !faultsNow.containsKey(part))
            .forEach(part -> said.add(new Said(now(), part)));
        faultsNow = seen.faults();
        return seen;
      }
    };
  }

  /** Ticks until that much time has passed. */
  void runFor(Duration span) {
    long end = time.nanos() + span.toNanos();
    while (nextTickNanos < end) {
      time.until(nextTickNanos);
      nextTickNanos += bench.tick().toNanos();
      loop.tickSafely();
      nextTickNanos = Math.max(nextTickNanos, time.nanos());
    }
    time.until(end);
  }

  /** The program is gone at once; its disk is as its last write left it. */
  void die() throws Exception {
    lives++;
    Path next = Files.createDirectories(folder.resolveSibling(Integer.toString(lives)));
    for (String end : List.of("", "-wal", ".tick")) {
      Path file = folder.resolve("journal.db" + end);
      if (Files.exists(file)) {
        Files.copy(file, next.resolve("journal.db" + end));
      }
    }
    end();
    folder = next;
  }

  private void end() throws Exception {
    journal.close();
    context.shutdown();
  }

  /** A person has looked at a cup, or with null at the bench. */
  void clear(String cup) throws Exception {
    ObjectNode order = Json.MAPPER.createObjectNode().put("kind", "clear");
    if (cup != null) {
      order.put("cup", cup);
    }
    order(order);
  }

  /** A person fills a tank to its brim and says so. */
  void fill(String tank) throws Exception {
    double ml = bench.tanks().get(tank).sizeMl();
    world.fillTo(tank, ml);
    order(Json.MAPPER.createObjectNode().put("kind", "filled").put("tank", tank).put("ml", ml));
  }

  private void order(ObjectNode order) throws Exception {
    String id = "o-" + ++orders;
    order.put("id", id);
    try (Outbox outbox = Outbox.of(journal())) {
      outbox.receive(id, now(), now().plus(Duration.ofHours(1)), order.toString());
    }
  }

  /** All that was told, from the first start on. */
  List<Event> events() throws Exception {
    try (Outbox outbox = Outbox.of(journal())) {
      return outbox.eventsAfter("", 0, 1_000_000);
    }
  }

  /** Passes of the whole run, in order. */
  List<JournalExport.Pass> passes() throws Exception {
    try (JournalExport export = JournalExport.open(journal().file())) {
      return export.passes();
    }
  }

  /** A person pours that much plain water into a cup, and says nothing. */
  void waterByHand(String cup, double ml) {
    world.person().water(cup, ml, 0);
    byHandMl.merge(cup, ml, Double::sum);
  }

  /** What came into each cup since it was made but for a person's water, mL. */
  Map<String, Double> waterInMl() {
    Map<String, Double> waterMl = new TreeMap<>();
    for (String cup : bench.cups().keySet()) {
      double inMl = world.cup(cup).balance().waterInMl();
      waterMl.put(cup, inMl - byHandMl.getOrDefault(cup, 0.0));
    }
    return waterMl;
  }

  /** Why the journal in use is a stand-in; none when it is the true one. */
  Optional<String> trouble() {
    return journal.trouble();
  }

  @Override
  public void close() throws Exception {
    end();
  }
}
