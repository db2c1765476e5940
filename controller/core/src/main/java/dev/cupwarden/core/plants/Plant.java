package dev.cupwarden.core.plants;

import java.util.List;

/**
 * One kind of plant as a cutting.
 *
 * @param name in the trade
 * @param also other names that growers use, in the trade or in Latin
 * @param lineShift by how much its lines are moved, as a depletion, -0.1 to 0.1: above 0 it roots
 *     drier than most
 * @param rootC the temperature wanted at the roots until there are some, °C
 * @param rooting how soon it has roots
 * @param shootsFirst whether its buds often break before it has roots
 * @param sources where that is from
 */
public record Plant(
    String name,
    List<String> also,
    double lineShift,
    Span rootC,
    RootingTime rooting,
    boolean shootsFirst,
    PlantSources sources) {
  /** No plant moves a line by more: our choice; what is beyond is a matter of the mix. */
  public static final double MOST_SHIFT = 0.1;

  /**
   * @throws IllegalArgumentException where the lines would be moved too far
   */
  public Plant {
    if (!(Math.abs(lineShift) <= MOST_SHIFT)) {
      throw new IllegalArgumentException("lines are moved by " + lineShift + ": too far");
    }
    also = List.copyOf(also);
  }

  /** Days at the table's warmth that a day at that temperature of the roots is worth. */
  public double dayWorth(double rootTemperatureC) {
    return rooting.worth(rootTemperatureC, rootC.most());
  }
}
