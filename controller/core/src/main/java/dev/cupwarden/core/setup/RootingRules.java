package dev.cupwarden.core.setup;

import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.PlantTable;
import java.util.Collections;
import java.util.Optional;
import java.util.SortedMap;

/**
 * How cuttings root: where they are watered by stage, and what is known of the plants.
 *
 * @param lines of the stages for which the grower set them
 * @param plants the table that comes with the program, with the bench's own
 */
public record RootingRules(SortedMap<RootStage, StageLines> lines, PlantTable plants) {
  /** The usual lines for every plant, since none is known. */
  public static final RootingRules USUAL =
      new RootingRules(Collections.emptySortedMap(), PlantTable.EMPTY);

  /** What is known of the plant in a cup; nothing where its word is in no table. */
  public Optional<Plant> plantOf(Cup cup) {
    return plants.find(cup.plant());
  }

  /**
   * The lines of a cup: its own, else those that the grower set for its stage, else the usual ones,
   * moved by what is known of its plant.
   */
  public StageLines linesOf(Cup cup) {
    StageLines usual = StageLines.usual(cup.stage());
    return set(cup)
        .orElseGet(() -> plantOf(cup).map(plant -> usual.movedBy(plant.lineShift())).orElse(usual));
  }

  /** The same as if nothing were known of its plant. */
  public StageLines linesOfAnyPlant(Cup cup) {
    return set(cup).orElseGet(() -> StageLines.usual(cup.stage()));
  }

  private Optional<StageLines> set(Cup cup) {
    return cup.lines().or(() -> Optional.ofNullable(lines.get(cup.stage())));
  }
}
