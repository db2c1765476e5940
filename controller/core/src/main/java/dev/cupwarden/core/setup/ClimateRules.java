package dev.cupwarden.core.setup;

import java.time.LocalTime;
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
 * @param covers what the grower says of domes and bags
 */
public record ClimateRules(
    double coldC,
    double frostC,
    double heatC,
    double rootHeatC,
    Optional<SortedSet<String>> rootCups,
    Optional<Lamp> lamp,
    Covers covers) {

  /**
   * Domes and bags over cups.
   *
   * @param all whether each cup has one, where it does not say otherwise
   * @param liftAt the local time at which to lift them for an hour each day; empty where the grower
   *     wants to be told of none
   */
  public record Covers(boolean all, Optional<LocalTime> liftAt) {
    /** In the light half of the day, within the usual watering window: our choice. */
    public static final Covers USUAL = new Covers(false, Optional.of(LocalTime.of(10, 0)));
  }

  /**
   * Our choice: uptake nearly stops below 10 to 12 C, and mats are set to 18 to 24 C for rooting;
   * see the notes on the science.
   */
  public static final ClimateRules USUAL =
      new ClimateRules(12.0, 3.0, 30.0, 27.0, Optional.empty(), Optional.empty(), Covers.USUAL);

  /** Whether the root thermometer tells of that cup, too: one off the mat is as cold as the air. */
  public boolean rootsToldOf(String cup) {
    return rootCups.map(cups -> cups.contains(cup)).orElse(true);
  }
}
