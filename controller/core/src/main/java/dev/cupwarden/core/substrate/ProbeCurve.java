package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.interpolation.LinearInterpolator;
import org.hipparchus.analysis.polynomials.PolynomialFunction;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;

/**
 * What a moisture probe's raw reading means in its mix, as calibrated by weighing. Always rising or
 * always falling: a probe that shows one figure for two contents cannot be used.
 */
public final class ProbeCurve {
  /** Readings this far beyond the calibrated ones still count, as a part of their span. */
  private static final double BEYOND = 0.05;

  private static final int LEAST_FOR_BEND = 4;

  private final UnivariateFunction theta;
  private final double least;
  private final double greatest;
  private final double residualSd;

  private ProbeCurve(UnivariateFunction theta, double least, double greatest, double residualSd) {
    this.theta = theta;
    this.least = least;
    this.greatest = greatest;
    this.residualSd = residualSd;
  }

  /**
   * One calibration: what the probe showed at a content found by weighing.
   *
   * @param raw volts, counts or hertz, finite
   * @param theta water as a part of volume, 0 to 1
   */
  public record Point(double raw, double theta) {
    /**
     * @throws IllegalArgumentException for a figure out of range
     */
    public Point {
      Argument.finite("raw", raw);
      Argument.within("theta", theta, 0, 1);
    }
  }

  /**
   * Straight lines from point to point.
   *
   * @param points two or more with different readings, in any order
   * @throws IllegalArgumentException for fewer, equal readings, or contents that do not always rise
   *     or always fall with the reading
   */
  public static ProbeCurve through(List<Point> points) {
    List<Point> ordered = ordered(points, 2);
    double direction = Math.signum(ordered.get(1).theta() - ordered.get(0).theta());
    for (int i = 1; i < ordered.size(); i++) {
      double step = ordered.get(i).theta() - ordered.get(i - 1).theta();
      if (direction == 0 || Math.signum(step) != direction) {
        throw turns(ordered.get(i - 1).raw(), ordered.get(i).raw());
      }
    }
    double[] raw = ordered.stream().mapToDouble(Point::raw).toArray();
    double[] content = ordered.stream().mapToDouble(Point::theta).toArray();
    return new ProbeCurve(
        new LinearInterpolator().interpolate(raw, content), raw[0], raw[raw.length - 1], 0);
  }

  /**
   * A curve of least squares with one bend, for more points than a curve should run through.
   *
   * @param points four or more with different readings, in any order
   * @throws IllegalArgumentException for fewer, equal readings, or a curve that turns within them
   */
  public static ProbeCurve fitted(List<Point> points) {
    List<Point> ordered = ordered(points, LEAST_FOR_BEND);
    double from = ordered.get(0).raw();
    double span = ordered.get(ordered.size() - 1).raw() - from;
    double[][] powers = new double[ordered.size()][];
    double[] content = new double[ordered.size()];
    for (int i = 0; i < powers.length; i++) {
      double x = (ordered.get(i).raw() - from) / span;
      powers[i] = new double[] {1, x, x * x};
      content[i] = ordered.get(i).theta();
    }
    Array2DRowRealMatrix matrix = new Array2DRowRealMatrix(powers, false);
    double[] factors =
        new QRDecomposition(matrix).getSolver().solve(new ArrayRealVector(content)).toArray();
    double slopeAtStart = factors[1] - 2 * BEYOND * factors[2];
    double slopeAtEnd = factors[1] + 2 * (1 + BEYOND) * factors[2];
    if (!(slopeAtStart * slopeAtEnd > 0)) {
      throw turns(from, from + span);
    }
    PolynomialFunction bent = new PolynomialFunction(factors);
    double off = 0;
    for (int i = 0; i < content.length; i++) {
      double residual = content[i] - bent.value(powers[i][1]);
      off += residual * residual;
    }
    return new ProbeCurve(
        raw -> bent.value((raw - from) / span),
        from,
        from + span,
        Math.sqrt(off / Math.max(1, content.length - 3)));
  }

  /**
   * Water as a part of volume, 0 to 1. Nothing for readings that are not a number or lie more than
   * a twentieth of the span beyond the calibrated ones.
   */
  public OptionalDouble theta(double raw) {
    double margin = BEYOND * (greatest - least);
    if (!(raw >= least - margin && raw <= greatest + margin)) {
      return OptionalDouble.empty();
    }
    double inside = Math.max(least, Math.min(greatest, raw));
    return OptionalDouble.of(Math.max(0, Math.min(1, theta.value(inside))));
  }

  /** Standard deviation of the points about the curve, part of volume; 0 where it meets all. */
  public double residualSd() {
    return residualSd;
  }

  private static List<Point> ordered(List<Point> points, int fewest) {
    List<Point> ordered = points.stream().sorted(Comparator.comparingDouble(Point::raw)).toList();
    if (ordered.size() < fewest) {
      throw new IllegalArgumentException(
          "points must be at least %d, not %d".formatted(fewest, ordered.size()));
    }
    for (int i = 1; i < ordered.size(); i++) {
      if (ordered.get(i).raw() == ordered.get(i - 1).raw()) {
        throw new IllegalArgumentException(
            "points must have different readings, not twice " + ordered.get(i).raw());
      }
    }
    return ordered;
  }

  private static IllegalArgumentException turns(double from, double to) {
    return new IllegalArgumentException(
        "points must always rise or always fall: the curve turns between readings %s and %s"
            .formatted(from, to));
  }
}
