package dev.cupwarden.core.estimate;

/**
 * What is known of the light at one look.
 *
 * @param measuredUmol at the bench, µmol/m²/s; NaN: no sensor tells it
 * @param lampUmol by the hours of the bench's lamp, µmol/m²/s; NaN: nobody told them
 * @param hour of the day by the bench's clock, 0 to 24; NaN: not known
 */
public record LightKnown(double measuredUmol, double lampUmol, double hour) {
  /** Nothing at all. */
  public static final LightKnown NOTHING = new LightKnown(Double.NaN, Double.NaN, Double.NaN);

  /** A usual lamp over cuttings, whose true light nobody told: our choice, µmol/m²/s. */
  private static final double USUAL_LAMP_UMOL = 100;

  /** By a sensor alone. */
  public static LightKnown measured(double umol) {
    return new LightKnown(umol, Double.NaN, Double.NaN);
  }

  /** With a lamp that burns now or does not. */
  public LightKnown byLamp(boolean burns) {
    return new LightKnown(measuredUmol, burns ? USUAL_LAMP_UMOL : 0, hour);
  }

  boolean measured() {
    return !Double.isNaN(measuredUmol);
  }

  /** Measured, else by the lamp's hours, µmol/m²/s; NaN: neither. */
  double umol() {
    return measured() ? measuredUmol : lampUmol;
  }
}
