package dev.cupwarden.core.setup;

import java.util.Optional;
import java.util.SortedSet;

/**
 * The room's climate: temperatures that change what may be done, and the light that is known.
 *
 * @param coldC of the roots where a thermometer speaks for them, else of the air; below it watering
 *     is held back
 * @param frostC likewise; below it nothing is watered
 * @param heatC of the air; above it a person is told
 * @param rootHeatC of the roots; above it a person is told, who looks at the mat
 * @param rootCups the cups that the root thermometer speaks for; none where it speaks for all
 * @param lamp its hours; empty where the grower tells of none
 */
public record ClimateRules(
    double coldC,
    double frostC,
    double heatC,
    double rootHeatC,
    Optional<SortedSet<String>> rootCups,
    Optional<Lamp> lamp) {

  /**
   * Our choice: uptake nearly stops below 10 to 12 C, and mats are set to 18 to 24 C for rooting;
   * see the notes on the science.
   */
  public static final ClimateRules USUAL =
      new ClimateRules(12.0, 3.0, 30.0, 27.0, Optional.empty(), Optional.empty());

  /** Whether the root thermometer tells of that cup, too: one off the mat is as cold as the air. */
  public boolean rootsToldOf(String cup) {
    return rootCups.map(cups -> cups.contains(cup)).orElse(true);
  }
}
