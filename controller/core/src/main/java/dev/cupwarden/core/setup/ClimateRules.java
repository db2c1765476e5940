package dev.cupwarden.core.setup;

/**
 * Temperatures that change what may be done.
 *
 * @param coldC root zone; below it watering is held back
 * @param frostC root zone or air; below it nothing is watered
 * @param heatC root zone or air; above it a person is told
 */
public record ClimateRules(double coldC, double frostC, double heatC) {
  /** Our choice: uptake nearly stops below 10 to 12 C; see the notes on the science. */
  public static final ClimateRules USUAL = new ClimateRules(12.0, 3.0, 30.0);
}
