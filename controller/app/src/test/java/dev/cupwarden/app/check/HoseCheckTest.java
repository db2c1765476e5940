package dev.cupwarden.app.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import java.util.List;
import org.junit.jupiter.api.Test;

class HoseCheckTest {
  private static List<Finding> findings(String hose) throws Exception {
    String text = BackRoom.text().replaceFirst("(?m)^hose:.*$", hose);
    return check(text);
  }

  private static List<Finding> check(String text) throws SetupException {
    return new HoseCheck(BenchFile.read("back-room.yaml", text)).all();
  }

  @Test
  void everyFedCupIsToldWhatItCanReach() throws Exception {
    List<Finding> small = findings("hose: 3 mL");
    assertEquals(6, small.size(), small.toString());
    assertTrue(small.stream().allMatch(finding -> finding.level() == Finding.Level.OK));
    List<Finding> large = findings("hose: 20 mL");
    assertTrue(large.stream().anyMatch(finding -> finding.level() == Finding.Level.NOTE));
    assertTrue(large.get(1).sentence().startsWith("Cup A1: 0.32 of the label is meant"));
  }

  @Test
  void aWasteValveLetsEachReachTheTanksStrength() throws Exception {
    String text =
        BackRoom.text()
            .replaceFirst("(?m)^hose:.*$", "hose: 20 mL\ndrain: waste")
            .replace("    v12: {gpio: 25}", "    v12: {gpio: 25}\n    waste: {gpio: 14}");
    List<Finding> findings = check(text);
    assertTrue(findings.get(0).sentence().endsWith("cleared through waste"));
    assertTrue(findings.stream().allMatch(finding -> finding.level() == Finding.Level.OK));
  }

  @Test
  void aBenchWithoutFeedNeedsNone() throws Exception {
    String text =
        BackRoom.text()
            .replaceFirst("(?m)^hose:.*$", "")
            .replaceFirst("(?m)^  feed: \\{size: 4 L.*$", "")
            .replaceAll("(?m)^    feed: \\{gpio: .*$", "");
    assertEquals(List.of(), check(text));
  }
}
