package dev.cupwarden.core.substrate;

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
    int n = x.length;
    double[] u = new double[n];
    double meanU = 0;
    double meanY = 0;
    for (int i = 0; i < n; i++) {
      u[i] = transform.applyAsDouble(x[i]);
      meanU += u[i] / n;
      meanY += y[i] / n;
    }
    double covered = 0;
    double together = 0;
    double all = 0;
    for (int i = 0; i < n; i++) {
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
