package dev.cupwarden.core.estimate;

import org.hipparchus.filtering.kalman.Measurement;
import org.hipparchus.filtering.kalman.ProcessEstimate;
import org.hipparchus.filtering.kalman.linear.LinearEvolution;
import org.hipparchus.filtering.kalman.linear.LinearKalmanFilter;
import org.hipparchus.linear.CholeskyDecomposer;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * One step of Hipparchus's own Kalman filter over the model that {@link LoadFilter} describes, all
 * matrices written out anew: state (mass g, rate g/h, coefficient g/°C).
 */
final class LibraryFilter {
  private final double[] state;
  private final double[][] covariance;

  LibraryFilter(double[] state, double[][] covariance) {
    this.state = state.clone();
    this.covariance = covariance;
  }

  private record Reading(double getTime, RealVector getValue, RealMatrix getCovariance)
      implements Measurement {}

  /** After {@code hours}, with a reading of that many g at that many °C above the reference. */
  ProcessEstimate step(
      double hours, double wanderGPerH, double readG, double warmC, double noiseVar) {
    double q = wanderGPerH * wanderGPerH;
    RealMatrix moves =
        MatrixUtils.createRealMatrix(new double[][] {{1, -hours, 0}, {0, 1, 0}, {0, 0, 1}});
    RealMatrix wanders =
        MatrixUtils.createRealMatrix(
            new double[][] {
              {q * Math.pow(hours, 3) / 3 + 1e-4 * hours, -q * hours * hours / 2, 0},
              {-q * hours * hours / 2, q * hours, 0},
              {0, 0, 0}
            });
    RealMatrix seen = MatrixUtils.createRealMatrix(new double[][] {{1, 0, warmC}});
    LinearKalmanFilter<Reading> filter =
        new LinearKalmanFilter<>(
            new CholeskyDecomposer(1e-15, 1e-15),
            reading -> new LinearEvolution(moves, null, null, wanders, seen),
            new ProcessEstimate(
                0, MatrixUtils.createRealVector(state), MatrixUtils.createRealMatrix(covariance)));
    return filter.estimationStep(
        new Reading(
            hours,
            MatrixUtils.createRealVector(new double[] {readG}),
            MatrixUtils.createRealMatrix(new double[][] {{noiseVar}})));
  }
}
