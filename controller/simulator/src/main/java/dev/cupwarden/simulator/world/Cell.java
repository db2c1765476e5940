package dev.cupwarden.simulator.world;

/** A scale under one cup, at the level of grams. */
public interface Cell {
  /**
   * What the scale shows.
   *
   * @param loadG what truly stands on it
   * @param hours since it was read last
   * @param noiseTimes its noise, as a multiple of what is usual of it
   */
  double read(double loadG, Air air, double hours, double noiseTimes);

  /** The converter's last value again, to the last bit. */
  double stuck();

  /** A knock at the bench: from now on it shows so many grams more. */
  void bump(double grams);
}
