package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.core.longrun.FolderInMemory;
import dev.cupwarden.core.longrun.SideBySide;
import dev.cupwarden.core.longrun.TestReport;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The real jar, killed while its pump runs. */
class KilledRunIT {

  /** A fresh bench after so many: one that was killed more often has gone without a pass. */
  private static final int KILLS_A_BENCH = 2;

  @TempDir(factory = FolderInMemory.class)
  Path folder;

  @Test
  void passCutOffByAKillCountsAsGivenAndNothingIsGivenTwice() throws Exception {
    KilledBench bench = new KilledBench(folder);
    try (ControllerProcess run = bench.start("4")) {
      bench.awaitMorePassesThan(0);
      run.kill();
    }
    List<JournalExport.Pass> open =
        bench.passes().stream().filter(p -> p.outcome() == null).toList();
    assertFalse(open.isEmpty(), "killed in its midst");
    JournalExport.Pass cutOff = open.get(0);
    double ml = cutOff.plainMl() + cutOff.feedMl();
    JsonNode given = bench.state().at("/cups/" + cutOff.cup() + "/doses/given");
    assertEquals(ml, given.get(given.size() - 1).get("ml").asDouble(), 0.06, "state counts it");

    int before = bench.passes().size();
    try (ControllerProcess run = bench.start("300")) {
      bench.awaitMorePassesThan(before + 3);
      assertTrue(run.errors().contains("counts as given"), run.errors());
      assertTrue(run.terminate(), "ends when told to");
    }
    List<JournalExport.Pass> all = bench.passes();
    assertEquals(
        open.stream().map(JournalExport.Pass::cup).toList(),
        all.stream()
            .filter(pass -> "unknown".equals(pass.outcome()))
            .map(JournalExport.Pass::cup)
            .toList());
    Instant restart = Instant.parse(bench.starts().get(1));
    assertFalse(
        Instant.parse(all.get(before).at()).isBefore(restart.plus(KilledBench.SOAK)),
        "one settling period before anything else");
    bench.assertEachPassIsCountedOnceAndSoaked();
  }

  /**
   * {@code -Plong} makes it a thousand times; {@code -Dkills.seed=N} kills at other moments. What
   * is judged after a kill holds at any moment, so a machine of another pace needs no other seed.
   */
  @Test
  @Tag("long")
  void killedAgainAndAgainNothingIsGivenTwiceAndNothingIsLost() throws Exception {
    long begun = System.nanoTime();
    ControllerProcess.shareClasses(folder);
    int kills = Integer.getInteger("kills", 6);
    long seed = Long.getLong("kills.seed", 1);
    AtomicInteger benches = new AtomicInteger();
    AtomicInteger passes = new AtomicInteger();
    AtomicInteger cutOff = new AtomicInteger();
    int inAll = (kills + KILLS_A_BENCH - 1) / KILLS_A_BENCH;
    // A program waits for its pump most of the time: more of them than cores.
    SideBySide.on(
        2 * Runtime.getRuntime().availableProcessors(),
        () -> {
          for (int i = benches.getAndIncrement(); i < inAll; i = benches.getAndIncrement()) {
            Path home = Files.createDirectories(folder.resolve("bench-" + i));
            KilledBench bench = new KilledBench(home);
            SplittableRandom random = new SplittableRandom(seed + i);
            for (int kill = 0; kill < KILLS_A_BENCH; kill++) {
              killSoonAfterAPassBegan(bench, kill == 0 ? "40" : "600", random);
              bench.assertEachPassIsCountedOnceAndSoaked();
              cutOff.addAndGet(bench.open());
            }
            passes.addAndGet(bench.passes().size());
            delete(home);
          }
        });
    assertTrue(cutOff.get() > 0, "no pass was cut off");
    TestReport.put(
        "Killed processes",
        Duration.ofNanos(System.nanoTime() - begun),
        "%,d times `kill -9` of the packaged program on %,d simulated benches, seeds %d to %d, each within 1.5 s after a pass began: %,d passes, %,d of them cut off; no pass given twice, none lost."
            .formatted(
                inAll * KILLS_A_BENCH, inAll, seed, seed + inAll - 1, passes.get(), cutOff.get()));
  }

  private static void killSoonAfterAPassBegan(
      KilledBench bench, String speed, SplittableRandom random) throws Exception {
    int before = bench.passes().size();
    long afterMs = random.nextInt(1_500);
    try (ControllerProcess run = bench.start(speed)) {
      bench.awaitMorePassesThan(before);
      TimeUnit.MILLISECONDS.sleep(afterMs);
      run.kill();
    }
  }

  private static void delete(Path home) throws IOException {
    try (Stream<Path> all = Files.walk(home)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }

  @Test
  void toldToEndWhileThePumpRunsItPutsDownWhatRan() throws Exception {
    KilledBench bench = new KilledBench(folder);
    try (ControllerProcess run = bench.start("1")) {
      bench.awaitMorePassesThan(0);
      assertTrue(run.terminate());
    }
    JournalExport.Pass cutShort = bench.passes().get(0);
    assertEquals("failed", cutShort.outcome());
  }
}
