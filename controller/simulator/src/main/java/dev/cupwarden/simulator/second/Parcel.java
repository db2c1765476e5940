package dev.cupwarden.simulator.second;

/** Water somewhere in a cup, with the nitrogen and the salts that are dissolved in it. */
final class Parcel {
  double ml;
  double nMg;
  double saltMg;

  Parcel() {}

  Parcel(double ml, double nMg, double saltMg) {
    this.ml = ml;
    this.nMg = nMg;
    this.saltMg = saltMg;
  }

  /** So much of it, at most all, flows into another with its share of what is dissolved. */
  void flow(double wantedMl, Parcel to) {
    if (!(wantedMl > 0) || ml <= 0) {
      return;
    }
    if (wantedMl >= ml) {
      to.take(ml, nMg, saltMg);
      ml = 0;
      nMg = 0;
      saltMg = 0;
      return;
    }
    double part = wantedMl / ml;
    double goesNMg = nMg * part;
    double goesSaltMg = saltMg * part;
    to.take(wantedMl, goesNMg, goesSaltMg);
    take(-wantedMl, -goesNMg, -goesSaltMg);
  }

  /** Water alone is taken away, at most all of it; returns what came. */
  double dry(double wantedMl) {
    double goneMl = Math.max(0, Math.min(ml, wantedMl));
    ml -= goneMl;
    return goneMl;
  }

  void take(double moreMl, double moreNMg, double moreSaltMg) {
    ml += moreMl;
    nMg += moreNMg;
    saltMg += moreSaltMg;
  }
}
