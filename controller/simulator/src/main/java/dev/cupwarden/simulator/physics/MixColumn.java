package dev.cupwarden.simulator.physics;

/**
 * A cone of mix cut into flat layers, and the water that each layer holds after draining.
 *
 * <p>A layer whose middle stands z cm above the drain holes is drained to a suction of z cm; its
 * water is that of van Genuchten's curve at z (1980, Soil Sci. Soc. Am. J. 44:892), and the sum
 * over layers is container capacity (Milks, Fonteno and Larson 1989, J. Am. Soc. Hort. Sci.
 * 114:53). A plain sum over twenty layers, not the controller's quadrature.
 */
final class MixColumn {
  static final int LAYERS = 20;

  final double volumeMl;
  final double capacityMl;
  final double saturatedMl;
  final double topAreaCm2;

  MixColumn(Cone cone, Retention retention) {
    double layerCm = cone.depthCm() / LAYERS;
    double volume = 0;
    double held = 0;
    for (int i = 0; i < LAYERS; i++) {
      double lower = cone.radiusCmAt(i * layerCm);
      double upper = cone.radiusCmAt((i + 1) * layerCm);
      double ml = Math.PI / 3 * layerCm * (lower * lower + lower * upper + upper * upper);
      volume += ml;
      held += ml * retention.thetaAt((i + 0.5) * layerCm);
    }
    this.volumeMl = volume;
    this.capacityMl = held;
    this.saturatedMl = volume * retention.saturated();
    double top = cone.radiusCmAt(cone.depthCm());
    this.topAreaCm2 = Math.PI * top * top;
  }

  /** A truncated cone standing on its base. */
  record Cone(double baseRadiusCm, double topRadiusCm, double depthCm) {
    double radiusCmAt(double heightCm) {
      return baseRadiusCm + (topRadiusCm - baseRadiusCm) * heightCm / depthCm;
    }
  }

  /** Volume fraction of water against suction in cm, van Genuchten with m = 1 - 1/n. */
  record Retention(double saturated, double residual, double alphaPerCm, double n) {
    double thetaAt(double suctionCm) {
      double full = StrictMath.pow(1 + StrictMath.pow(alphaPerCm * suctionCm, n), 1 / n - 1);
      return residual + (saturated - residual) * full;
    }
  }
}
