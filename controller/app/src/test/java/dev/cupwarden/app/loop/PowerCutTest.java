package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.TestReport;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Power cuts by the hundred; {@code -Plong} makes it a hundred thousand, and {@code
 * -Dpowercuts.seed=N} plays one seed again, which the failure names.
 */
class PowerCutTest {
  @TempDir Path folder;

  @Test
  void noDoseIsGivenTwiceAndNoLedgerEntryLost() throws Exception {
    String text = threeCups();
    Bench bench = BenchFile.read("back-room.yaml", text);
    Long only = Long.getLong("powercuts.seed");
    int wanted = Integer.getInteger("powercuts", 200);
    int cuts = 0;
    int runs = 0;
    for (long seed = only == null ? 1 : only; cuts < wanted; seed++) {
      cuts += new PowerCutRun(seed, bench, text, folder).run();
      runs++;
      if (only != null) {
        break;
      }
    }
    assertTrue(only != null || cuts >= wanted);
    if (only == null) {
      TestReport.put(
          "Power cuts",
          "%,d in %,d runs, seeds 1 to %,d: no double dose, no lost ledger entry, no lost event."
              .formatted(cuts, runs, runs));
    }
  }

  /** The bench that comes with the program, with its first three cups. */
  private static String threeCups() {
    return BackRoom.text()
        .replaceAll("(?m)^  (A4|B[1-4]|C[1-4]): .*$", "")
        .replaceAll("(?m)^    s([4-9]|1[0-2]): .*$", "")
        .replaceAll("(?m)^    v([4-9]|1[0-2]): .*$", "");
  }
}
