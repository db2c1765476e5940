package dev.cupwarden.app.loop;

import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.KeptState;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.simulator.VirtualTime;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * What the loop costs with 200 cups and a tick a minute, each tick with its commit on a real disk;
 * beside it a bare commit of as many bytes with the same durability. Run in a virtual machine with
 * the settings of the package's launcher.
 */
public final class LoopBench {
  private static final int CUPS = 200;
  private static final Instant START = Instant.parse("2027-01-10T06:00:00Z");

  private final Bench bench;
  private final String text;
  private final DryingCups cups;
  private final VirtualTime world = new VirtualTime(START);
  private final AcceleratedTime time = new AcceleratedTime(world, AcceleratedTime.UNBOUNDED);

  private LoopBench() throws Exception {
    text = benchText();
    bench = BenchFile.read("bench.yaml", text);
    cups = new DryingCups(bench);
  }

  /** Arguments: how many ticks. */
  public static void main(String[] args) throws Exception {
    Path folder = Files.createTempDirectory(Path.of("target"), "loop-bench");
    try {
      new LoopBench().run(Integer.parseInt(args[0]), folder);
    } finally {
      try (Stream<Path> all = Files.walk(folder)) {
        for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(path);
        }
      }
    }
  }

  private void run(int ticks, Path folder) throws Exception {
    Path file = folder.resolve("journal.db");
    long[] nanos = new long[ticks];
    double usedMb = 0;
    int tenth = Math.max(1, ticks / 10);
    try (Journal journal = Journal.open(file)) {
      BenchLoop loop = resume(journal);
      System.out.println("tick  heap after a collection, MB  resident, MB  journal, MB");
      for (int i = 0; i < ticks; i++) {
        world.advanceBy(bench.tick());
        cups.dry(bench.tick());
        long begun = System.nanoTime();
        loop.tick();
        nanos[i] = System.nanoTime() - begun;
        if ((i + 1) % tenth == 0) {
          System.gc();
          Runtime now = Runtime.getRuntime();
          usedMb = (now.totalMemory() - now.freeMemory()) / 1e6;
          System.out.printf(
              "%d  %.1f  %.1f  %.1f%n",
              i + 1, usedMb, status("VmRSS"), Files.size(file) / 1e6);
        }
      }
    }
    double stateKb = stateBytes(file) / 1e3;
    double bareMs = bareP99Ms(folder, (int) (stateKb * 1e3));
    Arrays.sort(nanos);
    double p99Ms = nanos[(int) (ticks * 0.99)] / 1e6;
    System.out.printf("%d ticks, %d cups, %d passes%n", ticks, CUPS, cups.passes);
    System.out.printf(
        "tick with commit: median %.1f ms, p99 %.1f ms; bare commit of the state's %.0f kB: p99 %.1f"
            + " ms; ratio %.2f%n",
        nanos[ticks / 2] / 1e6, p99Ms, stateKb, bareMs, p99Ms / bareMs);
    System.out.printf("most resident: %.0f MB; ratio to the heap in use: %.1f%n", status("VmHWM"), status("VmHWM") / usedMb);
    long begun = System.nanoTime();
    try (Journal journal = Journal.open(file)) {
      resume(journal);
    }
    double restoreMs = (System.nanoTime() - begun) / 1e6;
    System.out.printf("restore: %.0f ms; ratio to a tick's median %.0f%n", restoreMs, restoreMs / (nanos[ticks / 2] / 1e6));
  }

  private BenchLoop resume(Journal journal) throws Exception {
    return BenchLoop.resume(
        new BenchLoop.Parts(
            bench, text, cups, journal, time, report -> {}, "bench", Optional.empty()));
  }

  /** Of this process, MB. */
  private static double status(String key) throws Exception {
    try (Stream<String> lines = Files.lines(Path.of("/proc/self/status"))) {
      String line = lines.filter(l -> l.startsWith(key + ":")).findFirst().orElseThrow();
      return Double.parseDouble(line.replaceAll("[^0-9]", "")) * 1024 / 1e6;
    }
  }

  private static int stateBytes(Path file) throws Exception {
    try (Journal journal = Journal.open(file)) {
      return KeptState.written(journal.restored().orElseThrow().state()).length;
    }
  }

  /** Rows of that size, one a transaction, with the journal's own durability. */
  private static double bareP99Ms(Path folder, int bytes) throws Exception {
    byte[] row = new byte[bytes];
    long[] nanos = new long[1000];
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("bare.db"));
        Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA journal_mode = WAL");
      statement.execute("PRAGMA synchronous = FULL");
      statement.execute("CREATE TABLE row (id INTEGER PRIMARY KEY, body BLOB)");
      try (PreparedStatement put =
          connection.prepareStatement("INSERT OR REPLACE INTO row VALUES (1, ?)")) {
        for (int i = 0; i < nanos.length; i++) {
          row[i % bytes]++;
          long begun = System.nanoTime();
          put.setBytes(1, row);
          put.executeUpdate();
          nanos[i] = System.nanoTime() - begun;
        }
      }
    }
    Arrays.sort(nanos);
    return nanos[(int) (nanos.length * 0.99)] / 1e6;
  }

  /** The bench that comes with the program, its cups two hundred and its ticks a minute. */
  private static String benchText() throws Exception {
    try (var in = BenchLoop.class.getResourceAsStream("/dev/cupwarden/app/back-room.yaml")) {
      String whole = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      StringBuilder some = new StringBuilder(whole.substring(0, whole.indexOf("\nboard:")));
      some.append("\ncups:\n");
      for (int i = 0; i < CUPS; i++) {
        some.append("  C%03d: {vessel: tall, mix: coir-perlite, plant: vine,".formatted(i))
            .append(" stage: toughened, cutting: 14 g}\n");
      }
      return some.toString().replace("tick: 5 min", "tick: 1 min");
    }
  }

  /** Cups that dry at a steady rate and take what they are given: no physics, no cost. */
  private static final class DryingCups implements BenchHardware {
    private final Map<String, Double> massG = new TreeMap<>();
    private final Map<String, Double> rateGPerH = new TreeMap<>();
    private long passes;

    DryingCups(Bench bench) {
      int i = 0;
      for (String cup : bench.cups().keySet()) {
        massG.put(cup, 280.0 + i % 40);
        rateGPerH.put(cup, 0.8 + 0.02 * (i++ % 50));
      }
    }

    void dry(Duration time) {
      rateGPerH.forEach(
          (cup, rate) -> massG.merge(cup, -rate * time.toSeconds() / 3600, Double::sum));
    }

    @Override
    public BoardReadings read() {
      Map<String, Double> shown = new TreeMap<>();
      massG.forEach((cup, grams) -> shown.put(cup, Math.rint(grams * 100) / 100));
      return new BoardReadings(
          new TreeMap<>(shown),
          OptionalDouble.of(19),
          OptionalDouble.of(55),
          OptionalDouble.of(18),
          new TreeMap<>(),
          new TreeMap<>(),
          new TreeMap<>(),
          false,
          new TreeMap<>());
    }

    @Override
    public DoseOutcome give(AllowedPass pass) {
      passes++;
      massG.merge(pass.cup(), pass.plainMl() + pass.feedMl(), Double::sum);
      return new DoseOutcome.Given(pass.plainMl(), pass.feedMl());
    }

    @Override
    public void allOff() {}
  }
}
