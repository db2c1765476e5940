package dev.cupwarden.core.bench;

import dev.cupwarden.core.substrate.DryDownFit;
import dev.cupwarden.core.substrate.DryDownPoint;
import dev.cupwarden.core.substrate.ExponentialFit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;

/** A dry-down of 200 weighings, beside the library's optimizer from a start near the truth. */
@State(Scope.Benchmark)
public class DryDownBench {
  private final List<DryDownPoint> points = new ArrayList<>();
  private final double[] time = new double[200];
  private final double[] grossG = new double[200];

  /** Weighings of a cup with noise of 0.1 g. */
  public DryDownBench() {
    Random random = new Random(200);
    for (int i = 0; i < time.length; i++) {
      time[i] = i / 199.0;
      grossG[i] = 180 + 240 * Math.exp(-3 * time[i]) + 0.1 * random.nextGaussian();
      points.add(new DryDownPoint(time[i] * 160, grossG[i]));
    }
  }

  /** Start, fit, errors and verdict. */
  @Benchmark
  public DryDownFit fit() {
    return ExponentialFit.fit(points);
  }

  /** The optimizer alone. */
  @Benchmark
  public RealVector plainOptimizer() {
    return new LevenbergMarquardtOptimizer()
        .optimize(
            new LeastSquaresBuilder()
                .model(this::model)
                .target(grossG)
                .start(new double[] {200, 200, 2})
                .maxEvaluations(1000)
                .maxIterations(1000)
                .build())
        .getPoint();
  }

  private Pair<RealVector, RealMatrix> model(RealVector p) {
    double[] value = new double[time.length];
    double[][] slope = new double[time.length][];
    for (int i = 0; i < time.length; i++) {
      double decay = Math.exp(-p.getEntry(2) * time[i]);
      value[i] = p.getEntry(0) + p.getEntry(1) * decay;
      slope[i] = new double[] {1, decay, -time[i] * p.getEntry(1) * decay};
    }
    return new Pair<>(
        new ArrayRealVector(value, false), new Array2DRowRealMatrix(slope, false));
  }
}
