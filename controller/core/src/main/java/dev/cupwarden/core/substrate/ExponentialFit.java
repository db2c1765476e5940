package dev.cupwarden.core.substrate;

import java.util.List;
import java.util.Optional;

/**
 * Fits {@link ExponentialDryDown} to the weighings of one undisturbed dry-down, as {@link
 * DryDownSegments} cuts them. Never throws for bad weighings: they come back as a refusal.
 *
 * <p>By Levenberg-Marquardt on time scaled to the span of the weighings, from the best rate of a
 * coarse grid, for each of which the other two parameters follow from linear least squares.
 */
public final class ExponentialFit {
  /** Below this many time constants seen, where the curve ends is not in the data. */
  private static final double LEAST_TIME_CONSTANTS = 1.5;

  /** Greatest standard error of the asymptote, as a part of the fall that was seen. */
  private static final double GREATEST_ERROR_OF_FALL = 0.25;

  private static final double SLOWEST = 0.02;
  private static final double FASTEST = 60;
  private static final int RATES = 24;

  private final double start;
  private final double span;
  private final double[] time;
  private final double[] grossG;

  private ExponentialFit(List<DryDownPoint> points, double start) {
    this.start = start;
    this.span = points.get(points.size() - 1).time() - start;
    this.time = points.stream().mapToDouble(point -> (point.time() - start) / span).toArray();
    this.grossG = points.stream().mapToDouble(DryDownPoint::grossG).toArray();
  }

  /**
   * Asymptote, amplitude and rate of four or more weighings.
   *
   * @param points in order of time
   */
  public static DryDownFit fit(List<DryDownPoint> points) {
    Optional<Refusal> wrong = Refusal.of(points, 4);
    if (wrong.isPresent()) {
      return new DryDownFit.Refused(wrong.get());
    }
    ExponentialFit data = new ExponentialFit(points, points.get(0).time());
    return CurveFit.of(ExponentialFit::curve, data.time, data.grossG, data.roughStart())
        .map(found -> data.judge(found, found.parameter(0), found.standardError(0)))
        .orElse(new DryDownFit.Refused(Refusal.NO_CURVE));
  }

  private static double curve(double x, double[] p, double[] slopes) {
    double decay = Math.exp(-p[2] * x);
    slopes[0] = 1;
    slopes[1] = decay;
    slopes[2] = -x * p[1] * decay;
    return p[0] + p[1] * decay;
  }

  private double[] roughStart() {
    double[] best = null;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < RATES; i++) {
      double rate = rate(i);
      LineFit line = LineFit.of(x -> Math.exp(-rate * x), time, grossG);
      if (line.rss() < least) {
        least = line.rss();
        best = new double[] {line.offset(), line.slope(), rate};
      }
    }
    return best == null ? new double[] {0, 0, 1} : best;
  }

  private static double rate(int i) {
    return SLOWEST * Math.pow(FASTEST / SLOWEST, i / (RATES - 1.0));
  }

  private DryDownFit judge(CurveFit found, double asymptoteG, double asymptoteErrorG) {
    return judge(
        found.parameter(1),
        found.parameter(2),
        asymptoteG,
        new DryDownFit.Errors(
            asymptoteErrorG,
            found.standardError(1),
            found.standardError(2) / span,
            found.rss(),
            found.rsd()));
  }

  private DryDownFit judge(
      double amplitudeG, double timeConstants, double asymptoteG, DryDownFit.Errors errors) {
    double fallG = amplitudeG * -Math.expm1(-timeConstants);
    if (amplitudeG <= 0 || timeConstants <= 0 || fallG < 2 * errors.rsdG()) {
      return new DryDownFit.Refused(Refusal.NOT_FALLING);
    }
    ExponentialDryDown curve =
        new ExponentialDryDown(asymptoteG, amplitudeG, timeConstants / span, start);
    String because = "";
    if (timeConstants < LEAST_TIME_CONSTANTS) {
      because = "only %.2f time constants were seen, 1.5 are needed".formatted(timeConstants);
    } else if (asymptoteG < 0) {
      because = "it would end at a mass below nothing";
    } else if (errors.asymptoteG() > GREATEST_ERROR_OF_FALL * fallG) {
      because = "its end is known to %.1f g only".formatted(errors.asymptoteG());
    }
    return because.isEmpty()
        ? new DryDownFit.Identified(curve, errors)
        : new DryDownFit.AsymptoteUnclear(curve, errors, because);
  }
}
