package dev.cupwarden.core.setup;

/**
 * A cup's shape: a truncated cone, wide end up or down.
 *
 * @param name the grower's name for it
 * @param topMm inner diameter at the surface of the mix
 * @param baseMm inner diameter at the bottom
 * @param depthMm depth of the mix, above 0
 * @param emptyG mass of the empty vessel
 * @param holes whether water can run out of it
 */
public record Vessel(
    String name, double topMm, double baseMm, double depthMm, double emptyG, boolean holes) {

  /** One with holes. */
  public Vessel(String name, double topMm, double baseMm, double depthMm, double emptyG) {
    this(name, topMm, baseMm, depthMm, emptyG, true);
  }
}
