package dev.cupwarden.simulator.second;

/**
 * A water mould and what it does to the wood. Its spores swim: they multiply where the lower layers
 * have hardly any air, by temperature, and die off slowly else. A lesion grows by the spores there
 * are, more through roots that drought or salt has wounded; wood that is well supplied walls it
 * off. A sodden cup without spores does not rot for weeks. Figures: the project's choice.
 */
final class Disease {
  private static final double DOUBLES_H = 9;
  private static final double DIES_OFF_H = 90;
  private static final double FILLS_H = 70;
  private static final double WALLS_OFF_H = 900;

  /** Past this much there is no coming back. */
  private static final double BEYOND = 0.6;

  private final Nature.WoodNature nature;
  private double spores;
  private double lesion;
  private double wounds;

  Disease(Nature.WoodNature nature) {
    this.nature = nature;
    this.spores = nature.spores();
  }

  /**
   * @param swim 0 to 1: how far the lower layers lie under water
   * @param vigour 0 to 1
   */
  void live(double h, double rootC, double swim, double vigour) {
    // Most at some 24 °C, none below 6 or above 36: a parabola.
    double warm = Math.max(0, 1 - StrictMath.pow((rootC - 22) / 15, 2));
    spores += spores * (swim * warm * (1 - spores) / DOUBLES_H * 0.7 - (1 - swim) / DIES_OFF_H) * h;
    spores = Math.max(nature.spores() * 0.1, spores);
    wounds = Math.max(0, wounds - wounds * h / 150);
    double spreads = spores * warm * (0.15 + 0.85 * swim) * (1 + 3 * wounds) / FILLS_H;
    double walled = lesion < BEYOND ? nature.guard() * vigour * (1 - swim) / WALLS_OFF_H : 0;
    lesion = Math.max(0, Math.min(1, lesion + (spreads - walled) * h));
  }

  void wound(double part) {
    wounds = Math.min(1, wounds + part);
  }

  /** Spores and a wound from outside. */
  void catchIt(double rise) {
    spores = Math.max(spores, 0.1 + 0.4 * rise);
    lesion = Math.min(1, lesion + 0.5 * rise);
    wounds = Math.min(1, wounds + rise);
  }

  double lesion() {
    return lesion;
  }
}
