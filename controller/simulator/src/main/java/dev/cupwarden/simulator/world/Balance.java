package dev.cupwarden.simulator.world;

/**
 * An account of what came into a cup, what is in it and what went out of it (tray, air, plant), for
 * water in mL, nitrogen in mg and salts in mg.
 */
public record Balance(
    double waterInMl,
    double waterHeldMl,
    double waterOutMl,
    double nInMg,
    double nHeldMg,
    double nOutMg,
    double saltInMg,
    double saltHeldMg,
    double saltOutMg) {

  /** The largest of the three errors, as a part of what came in (or of 1 where less came in). */
  public double error() {
    double water = error(waterInMl, waterHeldMl + waterOutMl);
    double n = error(nInMg, nHeldMg + nOutMg);
    double salt = error(saltInMg, saltHeldMg + saltOutMg);
    return Math.max(water, Math.max(n, salt));
  }

  private static double error(double in, double accounted) {
    return Math.abs(in - accounted) / Math.max(1, in);
  }
}
