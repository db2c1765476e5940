package dev.cupwarden.core.season;

import java.time.LocalDate;

/**
 * What a person told of one day outdoors, of the hours in which cups would be out.
 *
 * @param day at the bench's place
 * @param leastC the least air temperature, °C
 * @param mostC the most, °C
 * @param wind null where it was not told
 */
public record DayForetold(LocalDate day, double leastC, double mostC, Wind wind) {

  /** As one sees it on trees (Beaufort's scale on land: https://www.weather.gov/tbw/beaufort). */
  public enum Wind {
    /** Small branches move at most: up to Beaufort 4. */
    LIGHT,
    /** Small trees sway, or more: from Beaufort 5, 8 m/s, on. */
    STRONG
  }
}
