package dev.cupwarden.core.setup;

import java.util.OptionalDouble;

/**
 * The water of a bench, as its supplier's report or a test kit tells.
 *
 * @param ecMsPerCm its conductivity, mS/cm
 * @param alkalinityMgPerL its alkalinity as calcium carbonate, mg/L; empty where nobody knows
 * @param ph likewise
 */
public record Water(double ecMsPerCm, OptionalDouble alkalinityMgPerL, OptionalDouble ph) {
  /** Mains water of middling hardness, where the grower says nothing: our choice. */
  public static final Water USUAL = of(0.30);

  /** Of which only the conductivity is known. */
  public static Water of(double ecMsPerCm) {
    return new Water(ecMsPerCm, OptionalDouble.empty(), OptionalDouble.empty());
  }
}
