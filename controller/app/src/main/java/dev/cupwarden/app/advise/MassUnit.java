package dev.cupwarden.app.advise;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What the weights of a column are in. */
enum MassUnit {
  G(1.0),
  KG(1000.0),
  /** International avoirdupois, 28.349523125 g exactly (NIST Handbook 44, appendix C). */
  OZ(28.349523125),
  LB(453.59237);

  private final double grams;

  MassUnit(double grams) {
    this.grams = grams;
  }

  double gramsOf(double value) {
    return value * grams;
  }

  static Optional<MassUnit> of(String word) {
    return Arrays.stream(values())
        .filter(unit -> unit.name().toLowerCase(Locale.ROOT).equals(word.toLowerCase(Locale.ROOT)))
        .findFirst();
  }
}
