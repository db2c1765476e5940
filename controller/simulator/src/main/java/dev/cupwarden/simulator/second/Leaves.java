package dev.cupwarden.simulator.second;

/**
 * Leaves and their pores. Leaf area tends to its greatest by Gompertz's law in degree-days; pores
 * open by light within some twenty minutes and leave a tenth at night (5 to 30 % are published:
 * Caird et al. 2007, Plant Physiol. 143:4), close in dry air (Leuning 1995, Plant Cell Environ.
 * 18:339), and when the wood runs dry. All from memory.
 */
final class Leaves {
  private static final double NIGHT = 0.1;

  /** What goes through the skin of a leaf that is shut. */
  private static final double SKIN = 0.025;

  private static final double OPENS_H = 0.35;
  private static final double CLOSES_H = 0.15;
  private static final double DRY_AIR_PA = 1500;
  private static final double CROWN_CM2 = 160;

  /** Net radiation of leaves for each µmol of light, less what they send out, W. */
  private static final double W_PER_UMOL = 0.19;

  private static final double BUD_CM2 = 6;

  private final Nature.WoodNature nature;
  private double cm2;
  private double warmDegD;
  private double open = NIGHT;

  Leaves(Nature.WoodNature nature, double cm2) {
    this.nature = nature;
    this.cm2 = cm2;
    this.warmDegD = cm2 > 0 ? nature.budsDegD() : 0;
  }

  /** Leaf area unfolded in a step, cm². */
  double grow(double h, Breeze air, double lightDay, double supply, double nitrogen) {
    double degD = Math.max(0, Math.min(air.airC(), 28) - 5) * h / 24;
    warmDegD += degD;
    if (warmDegD < nature.budsDegD()) {
      return 0;
    }
    if (cm2 < BUD_CM2) {
      double before = cm2;
      cm2 = BUD_CM2;
      return cm2 - before;
    }
    double most = Math.max(BUD_CM2 + 1, nature.grownCm2() * (0.08 + 0.92 * supply));
    double lit = lightDay / (lightDay + 1.5);
    double grown =
        cm2 * nature.unfolds() * degD * Math.max(0, StrictMath.log(most / cm2)) * lit * nitrogen;
    cm2 += grown;
    return grown;
  }

  /** Leaves fall when the wood is nearly empty. */
  void shed(double part) {
    cm2 *= 1 - part;
  }

  /** Pores follow light and the wood's water; then what leaves and bark lose, mL/h. */
  double lossMlPerH(double h, Breeze air, double turgid) {
    double deficitPa = Penman.deficitPa(air.airC(), air.rhPct());
    double lit = -StrictMath.expm1(-air.lightUmolPerM2S() / 75);
    double wanted = NIGHT + (1 - NIGHT) * lit / (1 + deficitPa / DRY_AIR_PA);
    wanted = SKIN + (wanted - SKIN) * turgid;
    double lag = wanted > open ? OPENS_H : CLOSES_H;
    open += (wanted - open) * -StrictMath.expm1(-h / lag);
    double layers = cm2 / CROWN_CM2;
    double shaded = layers < 0.01 ? 1 : -StrictMath.expm1(-0.6 * layers) / (0.6 * layers);
    double netW = Math.max(0, W_PER_UMOL * air.lightUmolPerM2S() * shaded - 4);
    double airSPerM = 100 * StrictMath.sqrt(0.06 / Math.max(0.03, air.windMPerS()));
    double leaf =
        Penman.lossGPerHPerM2(
            air.airC(), deficitPa, netW, airSPerM, nature.leafSPerM() / Math.max(SKIN, open));
    double bark = Penman.lossGPerHPerM2(air.airC(), deficitPa, 0, airSPerM, 2500);
    return (leaf * cm2 * (0.5 + 0.5 * shaded) + bark * 15) / 10_000;
  }

  double cm2() {
    return cm2;
  }
}
