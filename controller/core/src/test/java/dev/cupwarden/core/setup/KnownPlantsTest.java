package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.PlantSources;
import dev.cupwarden.core.plants.PlantTable;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The table that comes with the program: every row whole, and every fact with its source. */
class KnownPlantsTest {
  private static Collection<Plant> plants() {
    return KnownPlants.table().plants().values();
  }

  @TestFactory
  Stream<DynamicTest> aRowIsWhole() {
    return plants().stream()
        .map(plant -> DynamicTest.dynamicTest(plant.name(), () -> assertWhole(plant)));
  }

  private static void assertWhole(Plant plant) {
    assertAll(
        () -> assertTrue(Math.abs(plant.lineShift()) <= 0.1, "shift"),
        () -> assertTrue(plant.rootC().least() < plant.rootC().most(), "temperatures"),
        () -> assertTrue(plant.rooting().days().least() < plant.rooting().days().most(), "days"),
        () ->
            assertTrue(
                plant.rooting().atC() >= plant.rootC().least()
                    && plant.rooting().atC() <= plant.rootC().most(),
                "its days go with a warmth that it wants"),
        () -> plant.sources().all().forEach(KnownPlantsTest::assertSourced),
        () ->
            assertFalse(plant.sources().all().contains("the bench file"), "no source is left out"));
  }

  /** An address, or the words; where there is an address it stands whole and ends before "; ". */
  private static void assertSourced(String source) {
    assertTrue(
        source.equals(PlantSources.COMMON_PRACTICE) || source.matches(".*, https?://[^ ;]+(; .+)?"),
        source);
  }

  @Test
  void theTableIsLongEnoughAndADozenHaveAPageToOpen() {
    assertTrue(plants().size() >= 25, plants().size() + " plants");
    long opened =
        plants().stream()
            .filter(plant -> plant.sources().all().stream().anyMatch(s -> s.contains("://")))
            .count();
    assertTrue(opened >= 12, opened + " plants with a page");
  }

  @Test
  void noNameStandsForTwoPlants() {
    Map<String, String> seen = new HashMap<>();
    for (Plant plant : plants()) {
      Stream.concat(Stream.of(plant.name()), plant.also().stream())
          .map(name -> name.toLowerCase(Locale.ROOT).replaceAll("[ -]", ""))
          .forEach(
              name -> {
                String other = seen.put(name, plant.name());
                assertTrue(
                    other == null || other.equals(plant.name()),
                    name + " is " + other + " and " + plant.name());
              });
    }
  }

  @Test
  void aPlantIsFoundHoweverItIsWritten() {
    PlantTable table = KnownPlants.table();
    for (String written :
        List.of(
            "blackcurrant",
            "black currant",
            "Black-Currants",
            "Ribes nigrum",
            "Ribes nigrum 'Early'",
            "blackcurrant, early")) {
      assertEquals("blackcurrant", table.find(written).orElseThrow().name(), written);
    }
    assertEquals("gooseberry", table.find("gooseberries").orElseThrow().name());
    assertEquals("fig", table.find("fig, white").orElseThrow().name());
    assertEquals("grape vine", table.find("vine").orElseThrow().name());
    assertEquals("privet", table.find("Ligustrum").orElseThrow().name());
    assertTrue(table.find("white").isEmpty());
    assertTrue(table.find("").isEmpty());
    assertTrue(table.find("(?)").isEmpty());
  }

  @Test
  void theNearestNameIsToldOfASlipOfThePenAndOfNothingElse() {
    PlantTable table = KnownPlants.table();
    assertEquals("mulberry", table.nearest("mullbery").orElseThrow());
    assertEquals("pomegranate", table.nearest("pomegranite").orElseThrow());
    assertTrue(table.nearest("dragon tree").isEmpty());
    assertTrue(table.nearest("x").isEmpty());
  }
}
