package dev.cupwarden.core.weighing;

import dev.cupwarden.core.argument.Argument;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;

/**
 * How a scale's raw counts become grams.
 *
 * @param zeroCounts counts with nothing on it, finite
 * @param countsPerG counts added by a gram, not 0; negative where the cell hangs upside down
 */
public record ScaleLine(double zeroCounts, double countsPerG) {
  /** What the scale showed under a load. */
  public record Sample(TestLoad load, double counts) {
    /**
     * @throws IllegalArgumentException for counts that are not finite
     */
    public Sample {
      Argument.finite("counts", counts);
    }
  }

  /**
   * @throws IllegalArgumentException for figures that are not finite, or counts that do not move
   */
  public ScaleLine {
    Argument.finite("zeroCounts", zeroCounts);
    Argument.above("magnitude of countsPerG", Math.abs(countsPerG), 0, Double.MAX_VALUE);
  }

  /**
   * The line of least squares through many loads.
   *
   * @param samples two or more, of at least two different loads
   * @throws IllegalArgumentException for fewer
   */
  public static ScaleLine fitted(List<Sample> samples) {
    if (samples.stream().mapToDouble(s -> s.load().massG()).distinct().count() < 2) {
      throw new IllegalArgumentException(
          "samples must have at least two different loads, not " + samples.size() + " of one");
    }
    double[][] rows =
        samples.stream().map(s -> new double[] {1, s.load().massG()}).toArray(double[][]::new);
    double[] counts = samples.stream().mapToDouble(Sample::counts).toArray();
    double[] line =
        new QRDecomposition(new Array2DRowRealMatrix(rows, false))
            .getSolver()
            .solve(new ArrayRealVector(counts))
            .toArray();
    return new ScaleLine(line[0], line[1]);
  }

  /** Mass for a raw reading, g. */
  public double massG(double counts) {
    return (counts - zeroCounts) / countsPerG;
  }

  /** Raw reading for a mass; the inverse of {@link #massG}. */
  public double counts(double massG) {
    return zeroCounts + countsPerG * massG;
  }
}
