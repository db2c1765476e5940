package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PlantsCommandTest {
  @TempDir private Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int plants(String... args) {
    String[] all = new String[args.length + 1];
    all[0] = "plants";
    System.arraycopy(args, 0, all, 1, args.length);
    return ControllerCommand.commandLine()
        .setOut(new PrintWriter(out))
        .setErr(new PrintWriter(err))
        .execute(all);
  }

  @Test
  void everyPlantIsToldWithItsSources() {
    assertEquals(0, plants());
    String text = out.toString();
    assertTrue(text.contains("grape vine (vine, grapevine, grape, Vitis, Vitis vinifera)"), text);
    assertTrue(text.contains("10 to 24 days at 29.5 °C, counted above 10 °C"), text);
    assertTrue(text.contains("Alley and Peterson 1977"), text);
    assertTrue(text.contains("common practice"), text);
  }

  @Test
  void oneIsToldByAnyOfItsNames() {
    assertEquals(0, plants("Ficus carica"));
    String text = out.toString();
    assertTrue(text.startsWith("fig (fig tree, common fig, Ficus carica)"), text);
    assertTrue(text.contains("0.05 drier than any plant's, as a depletion"), text);
    assertEquals(-1, text.indexOf("willow"));
  }

  @Test
  void whatNobodyKnowsIsRefusedWithTheNearestName() {
    assertEquals(2, plants("figg"));
    assertTrue(
        err.toString().startsWith("PLANT: \"figg\" is in no table of plants, is fig meant?"),
        err.toString());
  }

  @Test
  void aBenchsOwnPlantsAreThereForAProgram() throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("bench.yaml"),
            BackRoom.text() + "\nplants: {my-quince: {like: quince, days_to_roots: 30..60}}\n");
    assertEquals(0, plants("--bench", file.toString(), "--json", "my-quince"));
    JsonNode one = Json.MAPPER.readTree(out.toString()).get(0);
    assertEquals(30.0, one.get("days_least").doubleValue());
    assertEquals("the bench file", one.at("/sources/days_to_roots").textValue());
  }
}
