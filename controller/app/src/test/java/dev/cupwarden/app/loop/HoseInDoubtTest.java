package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What stands in the hose after a pass that did not run as it was counted. */
class HoseInDoubtTest extends LoopOnABench {
  private List<String> lines() throws Exception {
    StringBuilder lines = new StringBuilder();
    try (JournalExport export = JournalExport.open(journal.file())) {
      export.lines(0, lines);
    }
    return lines.toString().lines().toList();
  }

  @Test
  void theTickAfterAPassThatFailedSaysSo() throws Exception {
    BenchHardware failing =
        new BenchHardware.OnBoard(board) {
          @Override
          public DoseOutcome give(AllowedPass pass) {
            return new DoseOutcome.Failed(0, 0, "The valve did not open.");
          }
        };
    BenchLoop loop = loop(failing);
    int ticks = 0;
    while (reports.isEmpty() || last().doses().isEmpty()) {
      ticks(loop, 1);
      ticks++;
      assertTrue(ticks < 100, "a cup is watered in the morning");
    }
    ticks(loop, 1);
    List<String> lines = lines();
    assertTrue(lines.get(lines.size() - 1).contains("\"hose_in_doubt\":true"), lines.toString());
    assertFalse(lines.get(lines.size() - 2).contains("hose_in_doubt"));
  }

  @Test
  void aPassThatRanIsNotDoubted() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 40);
    assertTrue(reports.stream().anyMatch(report -> !report.doses().isEmpty()));
    assertEquals(0, lines().stream().filter(line -> line.contains("hose_in_doubt")).count());
  }
}
