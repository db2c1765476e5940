package dev.cupwarden.app.check;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.setup.BenchFile;
import java.util.List;
import org.junit.jupiter.api.Test;

class PlantCheckTest {
  private static List<String> notes(String plant, String more) throws Exception {
    String text = BackRoom.text().replaceAll("plant: [a-z]+", "plant: " + plant) + more;
    return new PlantCheck(BenchFile.read("back-room.yaml", text))
        .all().stream().map(Finding::sentence).toList();
  }

  @Test
  void aWordThatNoTableKnowsIsNotedOnceWithTheNearestName() throws Exception {
    List<String> slip = notes("blackcurant", "");
    assertEquals(1, slip.size(), slip.toString());
    assertEquals(
        "\"blackcurant\" is in no table of plants, is blackcurrant meant?",
        slip.get(0).substring(0, slip.get(0).indexOf('?') + 1));
    List<String> strange = notes("dragon tree", "");
    assertEquals(
        "\"dragon tree\" is in no table of plants. Its cups are kept as any plant's: ",
        strange.get(0).substring(0, strange.get(0).indexOf(": ") + 2));
  }

  @Test
  void whatTheTableOrTheBenchKnowsIsNotNoted() throws Exception {
    assertEquals(List.of(), notes("Ribes nigrum", ""));
    assertEquals(List.of(), notes("medlar", "\nplants: {medlar: {like: quince}}\n"));
  }
}
