package dev.cupwarden.core.substrate;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/**
 * Straight line of least squares over a transformed abscissa.
 *
 * @param offset value where the transformed abscissa is 0
 * @param slope change per unit of it
 * @param rss sum of the squared residuals
 */
record LineFit(double offset, double slope, double rss) {
  static LineFit of(DoubleUnaryOperator transform, double[] x, double[] y) {
    double[] u = Arrays.stream(x).map(transform).toArray();
    // Summed with compensation: of equal values the mean is that value, and nothing seems to fall.
    double meanU = Arrays.stream(u).average().orElse(0);
    double meanY = Arrays.stream(y).average().orElse(0);
    double covered = 0;
    double together = 0;
    double all = 0;
    for (int i = 0; i < u.length; i++) {
      double du = u[i] - meanU;
      double dy = y[i] - meanY;
      covered += du * du;
      together += du * dy;
      all += dy * dy;
    }
    double slope = covered > 0 ? together / covered : 0;
    return new LineFit(meanY - slope * meanU, slope, Math.max(0, all - slope * together));
  }
}
