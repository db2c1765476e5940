package dev.cupwarden.app.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.setup.BenchFile;
import java.util.List;
import org.junit.jupiter.api.Test;

class MixCheckTest {
  private static List<Finding> check(String leastAir) throws Exception {
    String text = BackRoom.text().replaceAll("least_air: 0.10", "least_air: " + leastAir);
    return new MixCheck(BenchFile.read("back-room.yaml", text)).all();
  }

  /** A cup of 112 mm holds 19 % air when drained, one of 78 mm 14 %. */
  @Test
  void mixThatDrainsToTooLittleIsNotedOnceForEachVessel() throws Exception {
    List<Finding> findings = check("0.11");
    assertEquals(1, findings.size(), findings.toString());
    assertEquals(Finding.Level.NOTE, findings.get(0).level());
    String sentence = findings.get(0).sentence();
    assertTrue(sentence.startsWith("coir-perlite in short drains to 1"), sentence);
    assertTrue(sentence.contains("warm roots are safe from 16 % on"), sentence);
    assertEquals(2, check("0.14").size());
  }

  @Test
  void oneThatDrainsWellIsNotNoted() throws Exception {
    assertEquals(List.of(), check("0.05"));
  }
}
