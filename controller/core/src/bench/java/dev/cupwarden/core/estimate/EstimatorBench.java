package dev.cupwarden.core.estimate;

import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** One look at a steady cup, and the estimate read from it: at most 2 µs each step. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class EstimatorBench {
  private final Estimator estimator = new Estimator(new EstimatorSettings(Duration.ofMinutes(5)));
  private final WeightFrame frame = new WeightFrame(78.559, 401.872, 501.3, 271.754);
  private EstimateState state = EstimateState.fresh();
  private Instant now = Instant.parse("2027-02-14T08:00:00Z");
  private double massG = 390;
  private long looks;

  /** One step in steady state. */
  @Benchmark
  public EstimateState step() {
    now = now.plusSeconds(300);
    massG = massG < 150 ? 390 : massG - 0.1;
    double noiseG = 0.05 * ((looks++ * 2654435761L & 1023) / 512.0 - 1);
    state =
        estimator
            .step(state, frame, new CupReading(now, massG + noiseG, 0, 0.9, 20.5, 120, true))
            .state();
    return state;
  }

  /** The library's Kalman filter alone, of the chain's several steps, on the same model. */
  @Benchmark
  public Object plainKalmanStep() {
    massG = massG < 150 ? 390 : massG - 0.1;
    return new LibraryFilter(
            new double[] {390, 1.2, 0.02},
            new double[][] {{0.01, 0.001, 0}, {0.001, 0.01, 0}, {0, 0, 0.0009}})
        .step(1 / 12.0, 0.144, massG, 0.5, 0.01);
  }

  /** The estimate of that moment. */
  @Benchmark
  public CupEstimate estimate() {
    return CupEstimate.at(state, frame, now);
  }
}
