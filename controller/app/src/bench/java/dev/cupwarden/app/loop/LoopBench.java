package dev.cupwarden.app.loop;

import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.journal.JournalRetention;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.simulator.VirtualTime;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.Statement;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What the loop costs with 200 cups and a tick a minute, each tick with its commit on a real disk,
 * held against its bounds; beside it a bare commit of as many bytes with the same durability. A
 * broker and a host are played that take what is told, as they do in a winter. Run in a virtual
 * machine with the settings of the package's launcher.
 */
public final class LoopBench {
  private static final int CUPS = 200;
  private static final Instant START = Instant.parse("2027-01-10T06:00:00Z");

  private static final double MOST_P99_MS = 20;
  private static final double MOST_RESIDENT_MB = 120;
  private static final double MOST_RESTORE_MS = 2000;

  /** A growth below it is taken for the play of a heap or of pages freed and used again. */
  private static final double MOST_GROWTH = 1.05;

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

  /** Arguments: how many ticks; or {@code restore} and a journal. */
  public static void main(String[] args) throws Exception {
    if (args[0].equals("restore")) {
      new LoopBench().restore(Path.of(args[1]));
      return;
    }
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
    Durations took = new Durations();
    Durations lately = new Durations();
    Durations cpu = new Durations();
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    Growth heap = new Growth();
    Growth disk = new Growth();
    // Until the passes, which stay longest, are as old as they get, the journal must grow.
    long full = JournalRetention.USUAL.passes().plusDays(2).dividedBy(bench.tick());
    int part = Math.max(1, ticks / 20);
    try (Journal journal = Journal.open(file);
        Outbox outbox = Outbox.of(journal)) {
      BenchLoop loop = resume(journal);
      System.out.println("tick  p99 of late, ms  heap after a collection, MB  resident, MB  journal, MB");
      for (int i = 1; i <= ticks; i++) {
        world.advanceBy(bench.tick());
        cups.dry(bench.tick());
        long begun = System.nanoTime();
        long begunCpu = threads.getCurrentThreadCpuTime();
        loop.tick();
        long nanos = System.nanoTime() - begun;
        cpu.add(threads.getCurrentThreadCpuTime() - begunCpu);
        took.add(nanos);
        lately.add(nanos);
        takeWhatIsTold(outbox);
        if (i % part == 0) {
          System.gc();
          Runtime now = Runtime.getRuntime();
          double heapMb = (now.totalMemory() - now.freeMemory()) / 1e6;
          double diskMb = Files.size(file) / 1e6;
          System.out.printf(
              "%d  %.1f  %.1f  %.1f  %.1f%n",
              i, lately.ms(0.99), heapMb, statusMb("VmRSS"), diskMb);
          lately = new Durations();
          heap.add(heapMb);
          if (i >= full) {
            disk.add(diskMb);
          }
        }
      }
    }
    int bytes = tickBytes(file);
    Durations bare = bareCommits(folder, bytes);
    System.out.printf(
        "%d ticks, %d cups, %d passes%n"
            + "tick with commit: median %.1f ms, p99 %.1f ms, longest %.0f ms;"
            + " of its own CPU: median %.1f ms, p99 %.1f ms;"
            + " a bare commit of its %.0f kB: median %.1f ms, p99 %.1f ms; ratio of the p99 %.2f%n",
        ticks,
        CUPS,
        cups.passes(),
        took.ms(0.5),
        took.ms(0.99),
        took.mostMs(),
        cpu.ms(0.5),
        cpu.ms(0.99),
        bytes / 1e3,
        bare.ms(0.5),
        bare.ms(0.99),
        took.ms(0.99) / bare.ms(0.99));
    judge("tick with commit, p99, ms", took.ms(0.99), MOST_P99_MS);
    judge("most resident, MB", statusMb("VmHWM"), MOST_RESIDENT_MB);
    judgeGrowth("heap in use", heap);
    judgeGrowth("journal from tick " + full + " on", disk);
    restoreInAProgramJustStarted(file);
  }

  private static void judge(String what, double is, double atMost) {
    System.out.printf(
        "%s: %.2f; at most %.2f: %s%n", what, is, atMost, is <= atMost ? "kept" : "missed");
  }

  private static void judgeGrowth(String what, Growth growth) {
    if (growth.known()) {
      judge(what + ", its later half over its earlier half", growth.ratio(), MOST_GROWTH);
    } else {
      System.out.println(what + ": too few ticks to tell");
    }
  }

  /** The broker has each pack and the host each event. */
  private static void takeWhatIsTold(Outbox outbox) throws Exception {
    List<Outbox.Pack> packs = outbox.packsAfter(0, 100);
    outbox.sent(packs.stream().map(Outbox.Pack::tick).toList());
    List<Event> events = outbox.eventsAfter("", 0, 1000);
    if (!events.isEmpty()) {
      Event last = events.get(events.size() - 1);
      outbox.kept(new Kept(last.epoch(), last.seq()));
    }
  }

  private BenchLoop resume(Journal journal) throws Exception {
    return BenchLoop.resume(
        new BenchLoop.Parts(
            bench, text, cups, journal, time, report -> {}, "bench", Optional.empty(), RunMode.AS_LEFT));
  }

  private static void restoreInAProgramJustStarted(Path file) throws Exception {
    String java = ProcessHandle.current().info().command().orElseThrow();
    new ProcessBuilder(
            java,
            "@" + Path.of("src", "deb", "java-options"),
            "-classpath",
            System.getProperty("java.class.path"),
            LoopBench.class.getName(),
            "restore",
            file.toString())
        .inheritIO()
        .start()
        .waitFor();
  }

  private void restore(Path file) throws Exception {
    long begun = System.nanoTime();
    try (Journal journal = Journal.open(file)) {
      resume(journal);
    }
    judge(
        "restore in a program just started, ms",
        (System.nanoTime() - begun) / 1e6,
        MOST_RESTORE_MS);
  }

  /** Of this process. */
  private static double statusMb(String key) throws Exception {
    try (Stream<String> lines = Files.lines(Path.of("/proc/self/status"))) {
      String line = lines.filter(l -> l.startsWith(key + ":")).findFirst().orElseThrow();
      return Double.parseDouble(line.replaceAll("[^0-9]", "")) * 1024 / 1e6;
    }
  }

  /** What a tick writes of the state and of what it saw. */
  private static int tickBytes(Path file) throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT (SELECT length(body) FROM state)"
                    + " + (SELECT sum(length(body)) FROM cup) / 60"
                    + " + (SELECT length(line) FROM observation ORDER BY tick DESC LIMIT 1)")) {
      return row.next() ? row.getInt(1) : 0;
    }
  }

  /** Rows of that size, one a transaction, with the journal's own durability. */
  private static Durations bareCommits(Path folder, int bytes) throws Exception {
    byte[] row = new byte[bytes];
    Durations took = new Durations();
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("bare.db"));
        Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA journal_mode = WAL");
      statement.execute("PRAGMA synchronous = FULL");
      statement.execute("CREATE TABLE row (id INTEGER PRIMARY KEY, body BLOB)");
      try (PreparedStatement put =
          connection.prepareStatement("INSERT OR REPLACE INTO row VALUES (1, ?)")) {
        for (int i = 0; i < 1000; i++) {
          row[i % bytes]++;
          long begun = System.nanoTime();
          put.setBytes(1, row);
          put.executeUpdate();
          took.add(System.nanoTime() - begun);
        }
      }
    }
    return took;
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
}
