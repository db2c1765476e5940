package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.longrun.FolderInMemory;
import dev.cupwarden.core.longrun.SideBySide;
import dev.cupwarden.core.longrun.TestReport;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Power cuts by the hundred; {@code -Plong} makes it a hundred thousand, {@code -Dpowercuts.from=N}
 * begins at another seed, and {@code -Dpowercuts.seed=N} plays one seed again, which the failure
 * names.
 */
@Tag("long")
class PowerCutTest {
  @TempDir(factory = FolderInMemory.class)
  Path folder;

  @Test
  void noDoseIsGivenTwiceAndNoLedgerEntryLost() throws Exception {
    String text = threeCups();
    Bench bench = BenchFile.read("back-room.yaml", text);
    Long only = Long.getLong("powercuts.seed");
    if (only != null) {
      new PowerCutRun(only, bench, text, folder).run();
      return;
    }
    long begun = System.nanoTime();
    int wanted = Integer.getInteger("powercuts", 200);
    AtomicInteger cuts = new AtomicInteger();
    long from = Long.getLong("powercuts.from", 1);
    AtomicLong runs = new AtomicLong();
    SideBySide.onEveryCore(
        () -> {
          while (cuts.get() < wanted) {
            cuts.addAndGet(
                new PowerCutRun(from + runs.getAndIncrement(), bench, text, folder).run());
          }
        });
    assertTrue(cuts.get() >= wanted);
    TestReport.put(
        "Power cuts",
        Duration.ofNanos(System.nanoTime() - begun),
        "%,d in %,d runs, seeds %,d to %,d: no double dose, no lost ledger entry, no lost event."
            .formatted(cuts.get(), runs.get(), from, from + runs.get() - 1));
  }

  /** The bench that comes with the program, with its first three cups. */
  static String threeCups() {
    return BackRoom.text()
        .replaceAll("(?m)^  (A4|B[1-4]|C[1-4]): .*$", "")
        .replaceAll("(?m)^    s([4-9]|1[0-2]): .*$", "")
        .replaceAll("(?m)^    v([4-9]|1[0-2]): .*$", "");
  }
}
