package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RecipeCommandTest {
  @TempDir private Path folder;
  private final CommandRun command = CommandRun.apart();
  private final StringWriter out = command.out;
  private final StringWriter err = command.err;
  private String bench = BackRoom.text();

  private int recipe(String... args) throws IOException {
    Path file = Files.writeString(folder.resolve("bench.yaml"), bench);
    return command.execute(List.of("recipe", "--bench", file.toString()), args);
  }

  /** 5.8 g a gallon at half strength: 2.9 g in 3.785 L, so 3.06 g in 4 L; N is 20 % of it. */
  @Test
  void feedTankIsTold() throws IOException {
    assertEquals(0, recipe());
    String text = out.toString();
    assertTrue(text.startsWith("feed: 4 L (1.057 US gal) of leafy at 0.500"), text);
    assertTrue(text.contains("3.06 g, or a little over 1/2 level teaspoon"), text);
    assertTrue(text.contains("N 153.2"), text);
    assertTrue(text.contains("gloves"), text);
    assertTrue(text.matches("(?s).*about \\d+ days by predicted use of the \\d+ cups.*"), text);
  }

  /** 100 of 250 mg/L may stay: 0.6 of rain. */
  @Test
  void waterThatYellowsLeavesIsToldWithItsCure() throws IOException {
    bench = bench.replace("water: {ec: 0.30}", "water: {ec: 0.30, alkalinity: 250, ph: 7.9}");
    assertEquals(0, recipe());
    String text = out.toString();
    assertTrue(text.contains("Water: Alkalinity 250 mg/L as CaCO3, well above 100"), text);
    assertTrue(text.contains("Water: Mixed with 60 % of rain water"), text);
    assertTrue(text.contains("Water: Do not pour in acid by guess"), text);
  }

  @Test
  void goodWaterIsNotSpokenOf() throws IOException {
    assertEquals(0, recipe());
    assertFalse(out.toString().contains("Water:"));
  }

  @Test
  void everyFigureIsThereForAProgram() throws IOException {
    assertEquals(0, recipe("--make", "1 US gal", "--strength", "0.25", "--stock", "100", "--json"));
    JsonNode one = Json.MAPPER.readTree(out.toString()).get(0);
    assertEquals(1.45, one.get("feed_g").doubleValue(), 1e-4);
    assertEquals(0.25, one.get("level_teaspoons").doubleValue(), 1e-4);
    assertEquals(
        0.3 + 0.25 * 5.8 / 3.785411784 * 1.25, one.get("ec_ms_per_cm").doubleValue(), 1e-3);
    assertEquals(37.8541, one.at("/stock/volume_ml").doubleValue(), 1e-3);
    assertEquals(25, one.at("/stock/strength").doubleValue(), 1e-9);
  }

  @Test
  void concentrateIsMadeFirstAndThinned() throws IOException {
    assertEquals(0, recipe("--stock", "100"));
    assertTrue(out.toString().contains("concentrate  40 mL"), out.toString());
    assertTrue(out.toString().contains("thinned 1 in 100.0"), out.toString());
  }

  @Test
  void onlyTankOfYoungCupsIsFilledWithPlainWater() throws IOException {
    bench =
        bench.replace("  plain: {size: 12 L}\n", "").replaceAll("\n    plain: \\{gpio: .*}", "");
    assertEquals(0, recipe());
    assertTrue(out.toString().contains("mix next     plain water: there is one tank"));
    assertFalse(out.toString().contains("at most 0.000"));
  }

  @Test
  void whatCannotBeMixedIsRefusedInASentence() throws IOException {
    assertEquals(2, recipe("--tank", "bucket"));
    assertTrue(err.toString().contains("\"bucket\" is none of the bench file's tanks"));
    assertEquals(2, recipe("--tank", "plain"));
    assertTrue(err.toString().contains("holds plain water; name one of: balanced, leafy"));
    assertEquals(2, recipe("--make", "a lot"));
    assertTrue(err.toString().contains("--make"), err.toString());
    assertEquals(2, recipe("--strength", "-1"));
    assertTrue(err.toString().contains("strength"), err.toString());
  }
}
