package dev.cupwarden.simulator.second;

import dev.cupwarden.core.setup.RootStage;

/**
 * Roots by layer. First the cut heals over by warmth, faster with air at the cut and slower in a
 * soaked or a dry bed; then roots grow out of it into the layers that are neither, and tan with
 * age. They show as white once they reach the wall, as circling once they fill the cup (shapes and
 * figures: the project's choice).
 */
final class Roots {
  private static final double BASE_C = 7;

  /** Shortest length that shows, and that of a full cup, cm a mL of mix. */
  private static final double SHOWS_CM = 3;

  private static final double FULL_CM_PER_ML = 1.0;

  /** The cut stands in the lowest but one layer. */
  private static final int CUT = Bed.LAYERS - 2;

  private final Nature nature;
  private final Bed bed;
  private final double[] lengthCm = new double[Bed.LAYERS];
  private double healed;
  private double tanDegD;
  private RootStage seen;

  Roots(Nature nature, Bed bed, RootStage stage) {
    this.nature = nature;
    this.bed = bed;
    this.seen = stage;
    if (stage.rooted()) {
      healed = 1;
      double reach = stage == RootStage.CIRCLING ? 1 : stage == RootStage.TOUGHENED ? 0.25 : 0.02;
      for (int i = 0; i < Bed.LAYERS; i++) {
        lengthCm[i] = reach * FULL_CM_PER_ML * bed.layerMl(i);
      }
      tanDegD = stage.takesFeed() ? nature.wood().tanDegD() : 0;
    }
  }

  /** A step of life; {@code vigour} 0 to 1 is what leaves and wood can pay for. */
  void grow(double h, double rootC, double vigour) {
    double degD = Math.max(0, Math.min(rootC, 27) - BASE_C) * h / 24;
    if (healed < 1) {
      healed += degD / nature.wood().callusDegD() * likes(CUT) * (0.5 + 0.5 * vigour);
      if (healed >= 1) {
        lengthCm[CUT] = SHOWS_CM / 3;
      }
    } else {
      spread(degD, vigour);
      tanDegD += totalCm() >= SHOWS_CM ? degD : 0;
    }
    see();
  }

  private void spread(double degD, double vigour) {
    double mostCm = FULL_CM_PER_ML * 1.3;
    for (int i = 0; i < Bed.LAYERS; i++) {
      double neighbours =
          (i > 0 ? lengthCm[i - 1] : 0) + (i + 1 < Bed.LAYERS ? lengthCm[i + 1] : 0);
      double room = Math.max(0, 1 - lengthCm[i] / (mostCm * bed.layerMl(i)));
      double tips = lengthCm[i] + 0.15 * neighbours;
      lengthCm[i] += tips * nature.wood().rootsPerDegD() * degD * room * likes(i) * vigour;
    }
  }

  /** How well roots grow in a layer: neither without air nor bone dry. */
  private double likes(int i) {
    double aired = Math.min(1, Math.max(0.05, (bed.air(i) - 0.04) / 0.14));
    double damp = 1 / (1 + StrictMath.pow(bed.suctionCm(i) / 250, 2));
    return aired * damp;
  }

  /** Fine roots die where a layer is bone dry; returns the part of all that died. */
  double dieBack(double h) {
    double before = totalCm();
    for (int i = 0; i < Bed.LAYERS; i++) {
      if (bed.theta(i) < nature.bed().unavailable() * 1.05) {
        lengthCm[i] *= StrictMath.exp(-h / 120);
      }
    }
    return before > 0 ? 1 - totalCm() / before : 0;
  }

  private void see() {
    double total = totalCm();
    if (seen == RootStage.STRUCK && total >= SHOWS_CM) {
      seen = RootStage.WHITE;
    }
    if (seen == RootStage.WHITE && tanDegD >= nature.wood().tanDegD()) {
      seen = RootStage.TOUGHENED;
    }
    if (seen == RootStage.TOUGHENED && total >= 0.5 * FULL_CM_PER_ML * bed.volumeMl()) {
      seen = RootStage.CIRCLING;
    }
  }

  double totalCm() {
    double sum = 0;
    for (double each : lengthCm) {
      sum += each;
    }
    return sum;
  }

  /** Roots in a layer; a cutting without any draws by the cut, as by half a centimetre. */
  double lengthCm(int i) {
    return lengthCm[i] + (i >= CUT ? 0.5 : 0);
  }

  RootStage stage() {
    return seen;
  }
}
