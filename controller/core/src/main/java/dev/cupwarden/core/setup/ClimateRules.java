package dev.cupwarden.core.setup;

import java.util.Optional;

/**
 * The room's climate: temperatures that change what may be done, and the light that is known.
 *
 * @param coldC root zone; below it watering is held back
 * @param frostC root zone or air; below it nothing is watered
 * @param heatC root zone or air; above it a person is told
 * @param lamp its hours; empty where the grower tells of none
 */
public record ClimateRules(double coldC, double frostC, double heatC, Optional<Lamp> lamp) {
  /** Our choice: uptake nearly stops below 10 to 12 C; see the notes on the science. */
  public static final ClimateRules USUAL = new ClimateRules(12.0, 3.0, 30.0);

  /** Of a room of whose lamp nothing is told. */
  public ClimateRules(double coldC, double frostC, double heatC) {
    this(coldC, frostC, heatC, Optional.empty());
  }
}
