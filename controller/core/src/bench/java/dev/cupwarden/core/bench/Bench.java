package dev.cupwarden.core.bench;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.NoBenchmarksException;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;

/** Runs the benchmarks briefly and prints each against its bound and the library beside it. */
public final class Bench {
  /** One row of the closing table: ours, the bound in µs, the library's own. */
  private record Bound(String ours, double greatestUs, String plain) {}

  private static final List<Bound> BOUNDS =
      List.of(
          new Bound("CapacityBench.cup", 20, "CapacityBench.plainQuadrature"),
          new Bound("CapacityBench.cupOfClosedForm", 20, "CapacityBench.plainQuadrature"),
          new Bound("EstimatorBench.step", 2, "EstimatorBench.plainKalmanStep"),
          new Bound("AdviseBench.brief", 1000, "AdviseBench.plainJson"),
          new Bound("AdviseBench.full", 5000, "AdviseBench.plainJson"),
          new Bound("DryDownBench.fit", 2000, "DryDownBench.plainOptimizer"));

  private Bench() {}

  /**
   * The first argument is a regular expression for the benchmarks to run; one that means another
   * module's runs none here.
   */
  public static void main(String[] args) throws RunnerException {
    Collection<RunResult> results;
    try {
      results = run(args.length > 0 ? args[0] : ".*");
    } catch (NoBenchmarksException none) {
      System.out.println("No benchmark of the core is called so.");
      return;
    }
    report(results);
  }

  private static Collection<RunResult> run(String wanted) throws RunnerException {
    return new Runner(
                new OptionsBuilder()
                    .include(wanted)
                    .mode(Mode.AverageTime)
                    .timeUnit(TimeUnit.MICROSECONDS)
                    .forks(1)
                    .warmupIterations(3)
                    .warmupTime(TimeValue.seconds(1))
                    .measurementIterations(10)
                    .measurementTime(TimeValue.milliseconds(300))
                    .build())
            .run();
  }

  private static void report(Collection<RunResult> results) {
    Map<String, Double> us = new TreeMap<>();
    for (RunResult result : results) {
      String name = result.getParams().getBenchmark();
      us.put(name.replaceFirst(".*\\.(\\w+\\.\\w+)$", "$1"), best(result));
    }
    boolean kept = true;
    for (Bound bound : BOUNDS) {
      Double took = us.get(bound.ours());
      Double plain = us.get(bound.plain());
      if (took != null && plain != null) {
        kept &= took <= bound.greatestUs();
        System.out.printf(
            "%-32s %9.3f µs, at most %.0f: %s; %.2f x %s%n",
            bound.ours(),
            took,
            bound.greatestUs(),
            took <= bound.greatestUs() ? "kept" : "BROKEN",
            took / plain,
            bound.plain());
      }
    }
    if (!kept) {
      System.exit(1);
    }
  }

  /** The quickest of the iterations, as other work on the machine can only add to it. */
  private static double best(RunResult result) {
    return result.getPrimaryResult().getStatistics().getMin();
  }
}
