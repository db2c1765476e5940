package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.PlantSources;
import dev.cupwarden.core.plants.PlantTable;
import dev.cupwarden.core.plants.RootingTime;
import dev.cupwarden.core.plants.Span;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A bench's own plants, and what plants do to the lines of its cups. */
class PlantKeysTest {
  private static Bench with(String more) throws SetupException {
    return BenchFile.read("bench.yaml", BenchTexts.backRoom() + more);
  }

  private static Bench of(String plant) throws SetupException {
    return BenchFile.read(
        "bench.yaml", BenchTexts.backRoom().replace("plant: mulberry,", "plant: " + plant + ","));
  }

  private static StageLines linesOf(Bench bench, RootStage stage) {
    return bench.linesOf(bench.cups().get("A2").withStage(stage));
  }

  @Test
  void withoutTheKeyTheTableOfTheProgramHolds() throws SetupException {
    assertEquals(KnownPlants.table(), BenchTexts.backRoomBench().rooting().plants());
  }

  @Test
  void aPlantThatIsLikeAnotherNeedsOnlyWhatDiffers() throws SetupException {
    PlantTable plants =
        with("plants: {my-quince: {like: quince, lines: -0.05, days_to_roots: 30..60}}\n")
            .rooting()
            .plants();
    Plant quince = KnownPlants.table().find("quince").orElseThrow();
    Plant mine = plants.find("my quince").orElseThrow();
    assertEquals(
        new Plant(
            "my-quince",
            List.of(),
            -0.05,
            quince.rootC(),
            new RootingTime(new Span(30, 60), quince.rooting().atC(), quince.rooting().baseC()),
            quince.shootsFirst(),
            new PlantSources(
                "the bench file",
                quince.sources().warmth(),
                "the bench file",
                quince.sources().shoots())),
        mine);
    assertEquals(quince, plants.find("quince").orElseThrow(), "the other stays as it is");
  }

  @Test
  void aKnownNameIsOverruled() throws SetupException {
    PlantTable plants = with("plants: {fig: {lines: 0}}\n").rooting().plants();
    assertEquals(0.0, plants.find("Ficus carica").orElseThrow().lineShift());
    assertEquals(KnownPlants.table().plants().size(), plants.plants().size());
  }

  /** 68 to 77 F is 20 to 25 C; its days go with the middle of that. */
  @Test
  void aPlantThatNobodyKnowsIsGivenWhole() throws SetupException {
    Plant own =
        with("plants: {medlar: {also: [Mespilus], lines: 0.02, root_temperature: 68..77 F,"
                + " days_to_roots: 40..90, shoots_first: yes}}\n")
            .rooting()
            .plants()
            .find("Mespilus")
            .orElseThrow();
    assertEquals(
        new Plant(
            "medlar",
            List.of("Mespilus"),
            0.02,
            new Span(20, 25),
            new RootingTime(new Span(40, 90), 22.5, 10),
            true,
            PlantSources.BENCH_FILE),
        own);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          medlar: {lines: 0.02} | medlar.root_temperature: is missing: expected such as 18..24 C
          medlar: {root_temperature: 18..24 C} | medlar.days_to_roots: is missing: expected such as 30..60, or a plant that it is like
          medlar: {like: quinze} | medlar.like: "quinze" is not a plant that is known, is quince meant?
          medlar: {like: dragon tree} | medlar.like: "dragon tree" is not a plant that is known
          fig: {lines: 0.11} | fig.lines: "0.11" is out of range: expected -0.1 to 0.1
          fig: {days_to_roots: 60..30} | fig.days_to_roots: "60..30" is not in rising order
          fig: {days_to_roots: 30} | fig.days_to_roots: "30" is not a range: expected two numbers such as 30..60, each 1 to 400
          fig: {days_to_roots: 30..60 d} | fig.days_to_roots: "30..60 d" has a unit: expected two numbers such as 30..60
          fig: {days_to_roots: 0..60} | fig.days_to_roots: "0..60" is out of range: expected 1 to 400
          fig: {root_temperature: 18..24} | fig.root_temperature: "18" has no unit: expected a temperature in one of C, F
          fig: {root_temperature: 18..50 C} | fig.root_temperature: "18..50 C" is out of range: expected 0 C to 40 C
          fig: {base: 24 C} | fig: days at 24.0 C say nothing above a base of 24.0 C
          fig: {shoots_first: maybe} | fig.shoots_first: "maybe" is not yes or no; known: yes, no
          fig: {wet: yes} | fig.wet: "wet" is not a key here; known: like, also, lines, root_temperature, days_to_roots, days_at, base, shoots_first, sources
          fig: {sources: {lines: common practice}} | fig.sources.root_temperature: is missing: expected its source, or "common practice"
          """)
  void whatIsWrongIsRefusedInOneSentence(String plant, String sentence) {
    String told =
        assertThrows(SetupException.class, () -> with("plants: {" + plant + "}\n")).getMessage();
    assertEquals("plants." + sentence, told.replaceFirst("bench.yaml:\\d+:\\d+ ", ""));
  }

  /** Figs root drier by 0.05 in the table, willows moister by 0.1. */
  @Test
  void thePlantMovesTheUsualLinesOfEachStage() throws SetupException {
    assertEquals(new StageLines(0.65, 0.35, 0.9), linesOf(of("fig"), RootStage.STRUCK));
    assertEquals(new StageLines(0.5, 0.2, 0.75), linesOf(of("willow"), RootStage.STRUCK));
    assertEquals(new StageLines(0.4, 0.05, 0.7), linesOf(of("willow"), RootStage.WHITE));
    // 0.05 - 0.1 would be above capacity.
    assertEquals(new StageLines(0.4, 0.0, 0.65), linesOf(of("willow"), RootStage.TOUGHENED));
  }

  @Test
  void whatTheGrowerSetIsNotMoved() throws SetupException {
    assertEquals(
        new StageLines(0.4, 0, 0.7),
        linesOf(of("willow"), RootStage.CIRCLING),
        "the example sets the lines of this stage");
    Bench own = of("willow, lines: {due: 0.45, refill: 0.1, dry: 0.8}");
    assertEquals(new StageLines(0.45, 0.1, 0.8), linesOf(own, RootStage.STRUCK));
  }

  @Test
  void aWordThatTheTableDoesNotKnowChangesNothing() throws SetupException {
    for (RootStage stage : RootStage.values()) {
      assertEquals(StageLines.usual(stage), linesOf(of("dragon tree"), stage));
    }
  }
}
