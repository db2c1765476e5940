package dev.cupwarden.core.substrate;

import java.util.List;
import java.util.Optional;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealVector;

/**
 * Fits {@link TwoStageDryDown} to the weighings of one undisturbed dry-down. The second stage has a
 * rate of its own: real drying breaks more sharply than a curve of continuous rate can. Never
 * throws for bad weighings: they come back as a refusal.
 */
public final class TwoStageFit {
  private static final int LEAST_POINTS = 8;

  /** Weighings that each stage must have to be believed. */
  private static final int LEAST_PER_STAGE = 3;

  private static final double[] TAU_OF_SPAN = {0.03, 0.1, 0.2, 0.4, 0.8, 1.5};
  private static final int MOST_BREAKS_TRIED = 40;

  private TwoStageFit() {}

  /** What came of it. */
  public sealed interface Outcome {}

  /**
   * A curve.
   *
   * @param curve on the time of the weighings, from the first of them as 0
   * @param breakError standard error of the break, in the same time
   * @param rssG2 sum of the squared residuals
   */
  public record Fitted(TwoStageDryDown curve, double breakError, double rssG2) implements Outcome {}

  /** No curve. */
  public record Refused(Refusal why) implements Outcome {}

  /**
   * The two stages of eight or more weighings.
   *
   * @param points in order of time
   */
  public static Outcome fit(List<DryDownPoint> points) {
    Optional<Refusal> wrong = Refusal.of(points, LEAST_POINTS);
    if (wrong.isPresent()) {
      return new Refused(wrong.get());
    }
    double start = points.get(0).time();
    double span = points.get(points.size() - 1).time() - start;
    double[] time = points.stream().mapToDouble(p -> (p.time() - start) / span).toArray();
    double[] grossG = points.stream().mapToDouble(DryDownPoint::grossG).toArray();
    return CurveFit.of(TwoStageFit::curve, time, grossG, roughStart(time, grossG))
        .map(found -> judge(points, found, time, span))
        .orElse(new Refused(Refusal.NO_CURVE));
  }

  /** Parameters: mass at 0, loss of the first stage, all that the second can lose, tc, tau. */
  private static double curve(double x, double[] p, double[] slopes) {
    double late = Math.max(0, x - p[3]);
    double decay = Math.exp(-late / p[4]);
    boolean second = late > 0;
    slopes[0] = 1;
    slopes[1] = -Math.min(x, p[3]);
    slopes[2] = decay - 1;
    slopes[3] = second ? -p[1] + p[2] * decay / p[4] : 0;
    slopes[4] = p[2] * decay * late / (p[4] * p[4]);
    return p[0] - p[1] * Math.min(x, p[3]) + p[2] * (decay - 1);
  }

  private static double[] roughStart(double[] time, double[] grossG) {
    double[] best = {grossG[0], 1, 1, 0.5, 0.5};
    double least = Double.POSITIVE_INFINITY;
    int stride = Math.max(1, time.length / MOST_BREAKS_TRIED);
    for (int i = LEAST_PER_STAGE - 1; i <= time.length - LEAST_PER_STAGE; i += stride) {
      double at = (time[i] + time[i - 1]) / 2;
      for (double tau : TAU_OF_SPAN) {
        Optional<double[]> linear = linear(time, grossG, at, tau);
        if (linear.isPresent() && linear.get()[3] < least) {
          double[] found = linear.get();
          least = found[3];
          best = new double[] {found[0], found[1], found[2], at, tau};
        }
      }
    }
    return best;
  }

  /** For a given break and tau: mass at 0, both losses, and the sum of squares. */
  private static Optional<double[]> linear(double[] time, double[] grossG, double at, double tau) {
    double[][] columns = new double[time.length][];
    for (int i = 0; i < time.length; i++) {
      double late = Math.max(0, time[i] - at);
      columns[i] = new double[] {1, -Math.min(time[i], at), Math.expm1(-late / tau)};
    }
    Array2DRowRealMatrix matrix = new Array2DRowRealMatrix(columns, false);
    QRDecomposition qr = new QRDecomposition(matrix, 1e-12);
    if (!qr.getSolver().isNonSingular()) {
      return Optional.empty();
    }
    ArrayRealVector masses = new ArrayRealVector(grossG, false);
    RealVector solved = qr.getSolver().solve(masses);
    RealVector off = masses.subtract(matrix.operate(solved));
    return Optional.of(
        new double[] {
          solved.getEntry(0), solved.getEntry(1), solved.getEntry(2), off.dotProduct(off)
        });
  }

  private static Outcome judge(
      List<DryDownPoint> points, CurveFit found, double[] time, double span) {
    double rate = found.parameter(1);
    double secondG = found.parameter(2);
    double at = found.parameter(3);
    double tau = found.parameter(4);
    if (rate <= 0 || secondG <= 0 || tau <= 0) {
      return new Refused(Refusal.NO_CURVE);
    }
    long before = points.stream().filter(p -> p.time() - points.get(0).time() <= at * span).count();
    boolean bothStagesSeen = before >= LEAST_PER_STAGE && points.size() - before >= LEAST_PER_STAGE;
    boolean slower = secondG / tau <= rate * 1.001;
    if (!bothStagesSeen || !slower || !betterThanOneStage(points, found.rss(), time.length)) {
      return new Refused(Refusal.NO_BREAK);
    }
    double startG = found.parameter(0);
    return new Fitted(
        new TwoStageDryDown(
            startG, rate / span, at * span, startG - rate * at - secondG, tau * span),
        found.standardError(3) * span,
        found.rss());
  }

  /** By Akaike's criterion, against one straight line and one exponential. */
  private static boolean betterThanOneStage(List<DryDownPoint> points, double rss, int n) {
    double[] time = points.stream().mapToDouble(DryDownPoint::time).toArray();
    double[] grossG = points.stream().mapToDouble(DryDownPoint::grossG).toArray();
    double line = LineFit.of(x -> x, time, grossG).rss();
    double exponential = rssOf(ExponentialFit.fit(points));
    double two = akaike(rss, n, 5);
    return two < akaike(line, n, 2) && two < akaike(exponential, n, 3);
  }

  private static double rssOf(DryDownFit fit) {
    if (fit instanceof DryDownFit.Identified clear) {
      return clear.errors().rssG2();
    }
    return fit instanceof DryDownFit.AsymptoteUnclear unclear
        ? unclear.errors().rssG2()
        : Double.POSITIVE_INFINITY;
  }

  private static double akaike(double rss, int n, int parameters) {
    double corrected = 2.0 * parameters * n / Math.max(1, n - parameters - 1);
    return n * Math.log(Math.max(rss, 1e-12) / n) + corrected;
  }
}
