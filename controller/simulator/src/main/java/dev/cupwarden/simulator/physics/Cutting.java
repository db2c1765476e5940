package dev.cupwarden.simulator.physics;

import dev.cupwarden.core.setup.RootStage;

/**
 * The living part of a cup: roots, leaves, rot, wilting, and what it has taken up.
 *
 * <p>Roots are a number: 0 struck, 1 white, 2 toughened, 3 circling, moving by temperature and
 * water. Rot is a number from 0 to 1, death: it rises while the mix lacks air and falls slowly
 * while it has air. Both shapes are the project's choice; see {@link TraitTable} for their figures.
 */
final class Cutting {
  /** Nitrogen in new growth, mg per cm² of leaf with its share of stem and root. */
  private static final double N_MG_PER_CM2 = 0.20;

  /** Fresh mass of new growth, g per cm² of leaf with its share of stem and root. */
  private static final double FRESH_G_PER_CM2 = 0.05;

  /** Water in fresh growth. */
  static final double WATER_OF_FRESH = 0.85;

  /** Bark and buds lose water like so much leaf. */
  private static final double BARK_CM2 = 12;

  private static final double FIRST_LEAF_CM2 = 10;

  private final CupTraits traits;
  private double roots;
  private RootStage seen;
  private double leafCm2;
  private double ageH;
  private double rot;
  private double wiltH;
  private boolean dead;
  private double grownG;
  private double nPoolMg = 8;
  private double nTakenMg;
  private double saltTakenMg;

  Cutting(CupTraits traits, RootStage stage) {
    this.traits = traits;
    this.roots = stage.ordinal();
    this.seen = stage;
    this.leafCm2 = stage.rooted() ? 30.0 * stage.ordinal() : 0;
    this.ageH = stage.rooted() ? traits.plant().budBreakD() * 24 : 0;
  }

  /** Water that leaves would lose through this air with the mix as it is, mL/h. */
  double transpirationMlPerH(RoomAir air, double ftsw) {
    if (dead) {
      return 0;
    }
    double light = air.lightUmolPerM2S();
    double open = 0.08 + 0.92 * light / (light + 80);
    double supply = Math.max(0, Math.min(1, ftsw / traits.plant().criticalFtsw()));
    double reach = Math.min(1, 0.25 + 0.35 * roots);
    double warm = Math.max(0.1, Math.min(1, (air.rootC() - 4) / 12));
    double area = BARK_CM2 + leafCm2 * reach * (1 - rot);
    // Leaves close in very dry air, so more than 2 kPa draws no more.
    double drawKpa = Math.min(2, Math.max(0, air.vpdKpa()));
    return traits.plant().transpirationMlPerHPerCm2PerKpa() * area * drawKpa * open * supply * warm;
  }

  /** A step of growth and harm; returns mL of water built into new growth. */
  double live(double h, RoomAir air, double depletion, double airFraction, double ecMsPerCm) {
    if (dead) {
      return 0;
    }
    ageH += h;
    rotFor(h, air, airFraction, ecMsPerCm);
    wiltFor(h, air, depletion);
    if (rot >= 1 || wiltH >= traits.plant().wiltH() * (seen.rooted() ? 1 : 2.5)) {
      dead = true;
      return 0;
    }
    double warm = warmth(air.rootC());
    double moist = depletion > 0.8 ? 0.2 : 1;
    double aired = Math.min(1, airFraction / traits.mix().leastAir());
    growRoots(h, warm * moist * aired);
    return growLeaves(h, warm * moist, air.lightUmolPerM2S(), ecMsPerCm);
  }

  private void rotFor(double h, RoomAir air, double airFraction, double ecMsPerCm) {
    double pressure = 1 / (1 + StrictMath.exp((airFraction - traits.mix().leastAir()) / 0.015));
    double warm = Math.max(0.7, Math.min(1.5, 1 + (air.rootC() - 20) * 0.06));
    double burnt = ecMsPerCm > 6 ? 0.1 * (ecMsPerCm - 6) : 0;
    double tender = seen.rooted() ? 1 : 1.3;
    double rise = (pressure + burnt) * warm * tender / traits.plant().rotH();
    // With air, a rot not yet past half dries up in some ten days; past half it holds.
    double fall = rot < 0.5 && pressure < 0.2 ? 1 / 240.0 : 0;
    double spread = rot > 0.5 && pressure > 0.05 ? 1 / 400.0 : 0;
    rot = Math.max(0, rot + (rise + spread - fall) * h);
  }

  private void wiltFor(double h, RoomAir air, double depletion) {
    if (depletion > traits.plant().wiltDepletion()) {
      wiltH += h * Math.min(2, 0.4 + 0.6 * air.vpdKpa());
      leafCm2 -= leafCm2 * Math.min(0.5, 0.005 * h);
    } else if (wiltH > 0) {
      wiltH = Math.max(0, wiltH - 0.25 * h);
    }
  }

  private void growRoots(double h, double vigour) {
    double days =
        roots < 1
            ? traits.plant().roots().whiteD()
            : roots < 2 ? traits.plant().roots().toughenedD() : traits.plant().roots().circlingD();
    roots = Math.min(3.5, roots + vigour * (1 - rot) * h / 24 / days);
    while (seen != RootStage.CIRCLING && roots >= seen.ordinal() + 1) {
      seen = RootStage.values()[seen.ordinal() + 1];
    }
  }

  private double growLeaves(double h, double vigour, double light, double ecMsPerCm) {
    if (ageH < traits.plant().budBreakD() * 24) {
      return 0;
    }
    leafCm2 = Math.max(leafCm2, FIRST_LEAF_CM2);
    // Without roots the wood's reserves carry a few leaves and no more.
    double room = roots < 1 ? 40 : traits.plant().greatestLeafCm2() * Math.min(1, roots / 3);
    double lit = Math.min(1, light / 60);
    double fed = nPoolMg / (nPoolMg + 3);
    double salty = Math.max(0, Math.min(1, 1 - 0.05 * (ecMsPerCm - 3)));
    double perD = traits.plant().leafGrowthPerD() * 2 * lit * vigour * fed * salty * (1 - rot);
    double grownCm2 = Math.max(0, leafCm2 * perD * (1 - leafCm2 / room) * h / 24);
    grownCm2 = Math.min(grownCm2, nPoolMg / N_MG_PER_CM2);
    leafCm2 += grownCm2;
    nPoolMg -= grownCm2 * N_MG_PER_CM2;
    double freshG = grownCm2 * FRESH_G_PER_CM2;
    grownG += freshG;
    return freshG * WATER_OF_FRESH;
  }

  /** Nitrogen that the roots would take from a solution of that strength within a step, mg. */
  double nWantedMg(double h, double nMgPerMl, double rootC) {
    double full = 20 + 0.05 * leafCm2;
    if (dead || roots < 1 || nPoolMg >= full) {
      return 0;
    }
    double reach = Math.min(1, (roots - 0.8) / 1.5);
    return 0.12 * reach * warmth(rootC) * nMgPerMl / (nMgPerMl + 0.02) * h;
  }

  void takeUp(double nMg, double saltMg) {
    nPoolMg += nMg;
    nTakenMg += nMg;
    saltTakenMg += saltMg;
  }

  /** A disease that came from outside: it grows or dies back like any rot. */
  void infect(double rise) {
    rot = Math.min(1, rot + rise);
  }

  /** Root growth and uptake by temperature: none at 8 °C, full at 22, less again in heat. */
  private static double warmth(double rootC) {
    if (rootC <= 22) {
      return Math.max(0, (rootC - 8) / 14);
    }
    return Math.max(0.3, 1 - (rootC - 24) * 0.08 * (rootC > 24 ? 1 : 0));
  }

  RootStage stage() {
    return seen;
  }

  boolean dead() {
    return dead;
  }

  boolean rotted() {
    return dead && rot >= 1;
  }

  double rot() {
    return rot;
  }

  double leafCm2() {
    return leafCm2;
  }

  double massG() {
    return traits.plant().cuttingG() + grownG;
  }

  double nTakenMg() {
    return nTakenMg;
  }

  double saltTakenMg() {
    return saltTakenMg;
  }
}
