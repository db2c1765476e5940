package dev.cupwarden.core.watering;

import dev.cupwarden.core.setup.StageLines;
import java.util.Locale;

/**
 * The four lines of a cup on one axis, as depletions.
 *
 * @param wet where the air in the mix falls below what roots need; often negative
 * @param refill where watering ends
 * @param due where watering begins
 * @param dry where wilting is near
 */
public record CupLines(double wet, double refill, double due, double dry) {

  /**
   * @throws IllegalArgumentException unless wet &lt;= refill &lt; due &lt; dry, naming all four
   */
  public CupLines {
    if (!(wet <= refill && refill < due && due < dry)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "lines must keep wet <= refill < due < dry, but wet is %.3f, refill %.3f, due %.3f,"
                  + " dry %.3f",
              wet,
              refill,
              due,
              dry));
    }
  }

  /**
   * The lines of a cup. Where the mix lacks air even at capacity, watering ends at the wet line.
   *
   * @param wet the wet line as a depletion
   * @throws IllegalArgumentException if the lines are then out of order
   */
  public static CupLines of(double wet, StageLines stage) {
    return new CupLines(wet, Math.max(stage.refill(), wet), stage.due(), stage.dry());
  }
}
