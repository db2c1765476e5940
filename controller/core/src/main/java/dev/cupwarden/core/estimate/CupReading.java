package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * One look at one cup. What was not read is NaN: a look is taken at every tick, read or not.
 *
 * @param at when, not before the look before
 * @param massG gross grams as the scale shows them; NaN: not read
 * @param ownDoseMl mL that this program ordered for the cup since the look before, 0 or more
 * @param vpdKpa vapour pressure deficit of the air, kPa; NaN: unknown
 * @param tempC temperature at the scale, °C; NaN: unknown
 * @param light what is known of it
 * @param neighboursMoved whether other scales of the bench changed their readings since the look
 *     before
 * @param covered whether little drying is meant, so that standing still says nothing
 */
public record CupReading(
    Instant at,
    double massG,
    double ownDoseMl,
    double vpdKpa,
    double tempC,
    LightKnown light,
    boolean neighboursMoved,
    boolean covered) {

  /** Of an open cup. */
  public CupReading(
      Instant at,
      double massG,
      double ownDoseMl,
      double vpdKpa,
      double tempC,
      LightKnown light,
      boolean neighboursMoved) {
    this(at, massG, ownDoseMl, vpdKpa, tempC, light, neighboursMoved, false);
  }

  /**
   * Where nobody knows the hour.
   *
   * @param lightUmol at the bench, µmol/m²/s; NaN: unknown
   */
  public CupReading(
      Instant at,
      double massG,
      double ownDoseMl,
      double vpdKpa,
      double tempC,
      double lightUmol,
      boolean neighboursMoved) {
    this(at, massG, ownDoseMl, vpdKpa, tempC, LightKnown.measured(lightUmol), neighboursMoved);
  }

  /** A look of which only the weight is known. */
  public static CupReading of(Instant at, double massG) {
    return new CupReading(at, massG, 0, Double.NaN, Double.NaN, Double.NaN, false);
  }
}
