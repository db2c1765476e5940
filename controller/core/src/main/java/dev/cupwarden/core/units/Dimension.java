package dev.cupwarden.core.units;

import java.util.Arrays;
import java.util.stream.Collectors;

/** What a quantity measures. The base unit is the one that the program reckons in. */
public enum Dimension {
  LENGTH("a length"),
  VOLUME("a volume"),
  MASS("a mass"),
  TIME("a time"),
  TEMPERATURE("a temperature"),
  CONDUCTIVITY("a conductivity"),
  FLOW("a flow"),
  CONCENTRATION("a concentration");

  private final String words;

  Dimension(String words) {
    this.words = words;
  }

  /** With its article, as in "a length". */
  public String words() {
    return words;
  }

  /** The unit in which doubles of this dimension are kept: the first of its units. */
  public Unit base() {
    return Arrays.stream(Unit.values())
        .filter(unit -> unit.dimension() == this)
        .findFirst()
        .orElseThrow();
  }

  /** The symbols that a grower may write, the base unit first. */
  public String symbols() {
    return Arrays.stream(Unit.values())
        .filter(unit -> unit.dimension() == this)
        .map(Unit::symbol)
        .collect(Collectors.joining(", "));
  }
}
