package dev.cupwarden.core.substrate;

import java.util.Optional;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer.Optimum;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;

/** A curve laid through points by least squares, with the standard errors of its parameters. */
final class CurveFit {
  /** A curve with its slope in each parameter. */
  interface Curve {
    /** The value at {@code x}; fills {@code slopes} with the derivative by each parameter. */
    double at(double x, double[] parameters, double[] slopes);
  }

  private static final int MOST_STEPS = 1000;
  private static final double AS_FAR_AS_DOUBLES_GO = 1e-15;

  private static final LevenbergMarquardtOptimizer OPTIMIZER =
      new LevenbergMarquardtOptimizer()
          .withCostRelativeTolerance(AS_FAR_AS_DOUBLES_GO)
          .withParameterRelativeTolerance(AS_FAR_AS_DOUBLES_GO)
          .withOrthoTolerance(AS_FAR_AS_DOUBLES_GO);

  private final double[] parameters;
  private final double[] standardErrors;
  private final double rss;
  private final double rsd;

  private CurveFit(double[] parameters, double[] standardErrors, double rss, double rsd) {
    this.parameters = parameters;
    this.standardErrors = standardErrors;
    this.rss = rss;
    this.rsd = rsd;
  }

  /** The best curve near a start; nothing where none is found or its errors are undetermined. */
  static Optional<CurveFit> of(Curve curve, double[] x, double[] y, double[] start) {
    try {
      Optimum best =
          OPTIMIZER.optimize(
              new LeastSquaresBuilder()
                  .model(point -> valuesAndSlopes(curve, x, point))
                  .target(y)
                  .start(start)
                  .maxEvaluations(MOST_STEPS)
                  .maxIterations(MOST_STEPS)
                  .build());
      double rss = best.getResiduals().dotProduct(best.getResiduals());
      double rsd = Math.sqrt(rss / (x.length - start.length));
      double[] errors = best.getSigma(0).mapMultiply(rsd).toArray();
      CurveFit fit = new CurveFit(best.getPoint().toArray(), errors, rss, rsd);
      return fit.isFinite() ? Optional.of(fit) : Optional.empty();
    } catch (MathRuntimeException e) {
      // The library's word for points that do not determine the curve.
      return Optional.empty();
    }
  }

  private static Pair<RealVector, RealMatrix> valuesAndSlopes(
      Curve curve, double[] x, RealVector point) {
    double[] parameters = point.toArray();
    double[] values = new double[x.length];
    double[][] slopes = new double[x.length][parameters.length];
    for (int i = 0; i < x.length; i++) {
      values[i] = curve.at(x[i], parameters, slopes[i]);
    }
    return new Pair<>(new ArrayRealVector(values, false), new Array2DRowRealMatrix(slopes, false));
  }

  private boolean isFinite() {
    double sum = rss;
    for (int i = 0; i < parameters.length; i++) {
      sum += parameters[i] + standardErrors[i];
    }
    return Double.isFinite(sum);
  }

  double parameter(int i) {
    return parameters[i];
  }

  double standardError(int i) {
    return standardErrors[i];
  }

  /** Sum of the squared residuals. */
  double rss() {
    return rss;
  }

  /** Residual standard deviation. */
  double rsd() {
    return rsd;
  }
}
