package dev.cupwarden.simulator.second;

import dev.cupwarden.core.setup.RootStage;

/**
 * The cutting: a stem that holds water between what roots draw and leaves lose. It dies of drought
 * when the stem is empty, of rot when a lesion has gone round it. What roots draw from a layer
 * falls with suction in an S (van Genuchten 1987, U.S. Salinity Lab. Res. Rep. 121, from memory),
 * and with want of air.
 */
final class Woody {
  private static final double N_MG_PER_CM2 = 0.17;
  private static final double NEW_G_PER_CM2 = 0.035;
  private static final double NEW_WATER = 0.8;
  private static final double SALT_PER_N = 4.2;

  private final Nature nature;
  private final Bed bed;
  private final Roots roots;
  private final Leaves leaves;
  private final Disease disease;
  private final double halfCm;
  private double stemMl;
  private double builtMl;
  private double nPoolMg = 7;
  private double nTakenMg;
  private double saltTakenMg;
  private double grownG;
  private double lightDay = 3;
  private double transpiredMl;
  private boolean driedUp;
  private boolean rotted;

  Woody(Nature nature, Bed bed, RootStage stage) {
    this.nature = nature;
    this.bed = bed;
    this.roots = new Roots(nature, bed, stage);
    this.leaves = new Leaves(nature.wood(), stage.rooted() ? 25.0 * stage.ordinal() : 0);
    this.disease = new Disease(nature.wood());
    this.stemMl = nature.wood().stemMl();
    double drained = bed.drainedMl() / bed.volumeMl();
    double late = nature.bed().unavailable() + 0.30 * (drained - nature.bed().unavailable());
    this.halfCm = nature.bed().curve().suctionCm(late / bed.porosity());
  }

  void live(double h, Breeze air) {
    double lostMl = alive() ? leaves.lossMlPerH(h, air, turgid()) * h : 0.05 * h;
    lostMl = Math.min(lostMl, stemMl);
    stemMl -= lostMl;
    transpiredMl += lostMl;
    if (!alive()) {
      return;
    }
    draw(h, air.rootC());
    lightDay += (air.lightUmolPerM2S() * 0.0864 - lightDay) * h / 36;
    double vigour = turgid() * (1 - disease.lesion()) * (0.4 + 0.6 * nFed());
    roots.grow(h, air.rootC(), vigour);
    disease.wound(roots.dieBack(h));
    disease.live(h, air.rootC(), swim(), vigour);
    grow(h, air);
    suffer(h);
  }

  private void grow(double h, Breeze air) {
    double full = roots.totalCm() / bed.volumeMl();
    double supply = full / (full + 0.25);
    double grownCm2 =
        leaves.grow(h, air, lightDay, supply * (1 - disease.lesion()), nFed()) * turgid();
    nPoolMg = Math.max(0, nPoolMg - grownCm2 * N_MG_PER_CM2);
    double waterMl = Math.min(0.5 * stemMl, grownCm2 * NEW_G_PER_CM2 * NEW_WATER);
    stemMl -= waterMl;
    builtMl += waterMl;
    grownG += waterMl / NEW_WATER * (1 - NEW_WATER);
  }

  private void suffer(double h) {
    double left = stemMl / nature.wood().stemMl();
    if (left < 0.45) {
      leaves.shed(Math.min(0.5, 0.03 * h));
    }
    driedUp = left < 0.03;
    rotted = disease.lesion() >= 1;
  }

  /** Roots fill the stem up from the layers, most from where it is easiest. */
  private void draw(double h, double rootC) {
    double missingMl = nature.wood().stemMl() - stemMl;
    double easeSum = 0;
    double[] ease = new double[Bed.LAYERS];
    for (int i = 0; i < Bed.LAYERS; i++) {
      double dry = 1 / (1 + StrictMath.pow(bed.suctionCm(i) / halfCm, 3));
      double aired = Math.min(1, 0.2 + bed.air(i) / 0.08);
      ease[i] = roots.lengthCm(i) * dry * aired;
      easeSum += ease[i];
    }
    double warm = Math.max(0.15, Math.min(1, (rootC - 2) / 14));
    double sound = 1 - disease.lesion();
    double mostMl = 0.45 * StrictMath.sqrt(easeSum) * warm * sound * h;
    double wantedMl = Math.min(missingMl, mostMl);
    for (int i = 0; i < Bed.LAYERS && easeSum > 0; i++) {
      double floorMl = nature.bed().unavailable() * bed.layerMl(i);
      double spareMl = Math.max(0, bed.layer(i).ml - floorMl);
      double ml = Math.min(spareMl, wantedMl * ease[i] / easeSum);
      feedOn(bed.layer(i), ml);
      stemMl += bed.layer(i).dry(ml);
    }
  }

  /** Nitrogen comes along with the water, as much as the plant has use for. */
  private void feedOn(Parcel layer, double ml) {
    double useMg = 15 + 0.06 * leaves.cm2() - nPoolMg;
    if (!roots.stage().rooted() || useMg <= 0 || layer.ml <= 0) {
      return;
    }
    double nMg = Math.min(useMg, Math.min(0.5 * layer.nMg, 1.6 * ml * layer.nMg / layer.ml));
    double saltMg = Math.min(0.1 * layer.saltMg, SALT_PER_N * nMg);
    layer.take(0, -nMg, -saltMg);
    nPoolMg += nMg;
    nTakenMg += nMg;
    saltTakenMg += saltMg;
  }

  private double nFed() {
    return nPoolMg / (nPoolMg + 2.5);
  }

  /** How far the lower two layers lie without air, 0 to 1. */
  private double swim() {
    double air = (bed.air(Bed.LAYERS - 1) + bed.air(Bed.LAYERS - 2)) / 2;
    return 1 / (1 + StrictMath.exp((air - 0.06) / 0.012));
  }

  private double turgid() {
    return Math.max(0, Math.min(1, (stemMl / nature.wood().stemMl() - 0.25) / 0.5));
  }

  void wound(double part) {
    disease.wound(part);
  }

  void catchIt(double rise) {
    disease.catchIt(rise);
  }

  boolean alive() {
    return !driedUp && !rotted;
  }

  boolean rotted() {
    return rotted;
  }

  double lesion() {
    return disease.lesion();
  }

  RootStage stage() {
    return roots.stage();
  }

  double leafCm2() {
    return leaves.cm2();
  }

  /** Water in wood and new growth, mL. */
  double heldMl() {
    return stemMl + builtMl;
  }

  /** What the dry matter of new growth weighs; it came out of the air, g. */
  double grownG() {
    return grownG;
  }

  double transpiredMl() {
    return transpiredMl;
  }

  double nTakenMg() {
    return nTakenMg;
  }

  double saltTakenMg() {
    return saltTakenMg;
  }
}
