package dev.cupwarden.simulator.physics;

/** An amount of water with the nitrogen and the salts dissolved in it. */
final class Solution {
  double ml;
  double nMg;
  double saltMg;

  void add(double moreMl, double moreNMg, double moreSaltMg) {
    ml += moreMl;
    nMg += moreNMg;
    saltMg += moreSaltMg;
  }

  /** Moves so much of it, with what is dissolved in it, into another. */
  void pour(double outMl, Solution into) {
    if (outMl <= 0) {
      return;
    }
    double part = outMl >= ml ? 1 : outMl / ml;
    double movedNMg = nMg * part;
    double movedSaltMg = saltMg * part;
    double movedMl = outMl >= ml ? ml : outMl;
    into.add(movedMl, movedNMg, movedSaltMg);
    ml = part == 1 ? 0 : ml - movedMl;
    nMg = part == 1 ? 0 : nMg - movedNMg;
    saltMg = part == 1 ? 0 : saltMg - movedSaltMg;
  }

  /** Takes water and leaves behind what was dissolved in it. */
  void evaporate(double outMl) {
    ml -= outMl;
  }
}
