package dev.cupwarden.core.estimate;

/**
 * The scale's own noise, learned from how far readings fall from what was expected of them.
 *
 * @param varG2 its variance, g²
 */
record Noise(double varG2) {
  /** Until learned: typical of a small cell behind a 24-bit converter under a cup. */
  static final Noise GUESS = new Noise(0.1 * 0.1);

  /** A scale noisier than this cannot tell a least pass of 5 mL, g. */
  static final double GREATEST_SD_G = 1.5;

  private static final double LEARNING = 0.05;
  private static final double LEAST_VAR_G2 = 0.03 * 0.03;
  private static final double GREATEST_VAR_G2 = 25;

  /** After one more surprise, whose variance was expected to be {@code expectedVar}. */
  Noise learn(double surpriseG, double expectedVar) {
    double seen = Math.min(surpriseG * surpriseG, 16 * expectedVar);
    double next = varG2 + LEARNING * (seen - expectedVar);
    return new Noise(Math.max(LEAST_VAR_G2, Math.min(GREATEST_VAR_G2, next)));
  }

  double sdG() {
    return Math.sqrt(varG2);
  }

  boolean tooGreat() {
    return varG2 > GREATEST_SD_G * GREATEST_SD_G;
  }
}
