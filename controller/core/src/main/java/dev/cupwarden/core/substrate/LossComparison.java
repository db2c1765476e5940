package dev.cupwarden.core.substrate;

import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * Whether a cup drinks more or less than before: the later half of its dry-downs beside the
 * earlier. Those count that begin with a watering and last a whole day in known air; of an odd
 * number the middle one is left out.
 *
 * <p>On the logarithms of their losses per kPa: the ratio of the means with the 95 % interval of
 * Welch's t (Welch 1947, Biometrika 34:28).
 *
 * @param verdict what may be said
 * @param factor later over earlier
 * @param low 95 % interval of the factor
 * @param high likewise
 * @param each dry-downs on each side
 */
public record LossComparison(Verdict verdict, double factor, double low, double high, int each) {
  /** On each side; with fewer the interval says nothing. */
  public static final int LEAST_EACH = 3;

  /** Less than this is not worth a look at the roots (our choice). */
  private static final double MORE = 1.25;

  private static final double LESS = 0.75;

  private static final double ONE_SIDED = 0.975;

  /** What may be said. */
  public enum Verdict {
    /** The interval lies above 1, and the factor at 1.25 or above. */
    MORE,
    /** The interval lies below 1, and the factor at 0.75 or below. */
    LESS,
    /** Neither. */
    ALIKE
  }

  /**
   * Empty where fewer than three on each side count.
   *
   * @param dryDowns of one cup, oldest first
   */
  public static Optional<LossComparison> of(List<DryDown> dryDowns) {
    double[] logs =
        dryDowns.stream()
            .filter(DryDown::startSeen)
            .flatMap(each -> each.loss().stream())
            .mapToDouble(DryDown.Loss::gPerHPerKpa)
            .filter(loss -> loss > 0)
            .map(Math::log)
            .toArray();
    int each = logs.length / 2;
    if (each < LEAST_EACH) {
      return Optional.empty();
    }
    Side earlier = Side.of(logs, 0, each);
    Side later = Side.of(logs, logs.length - each, each);
    double apart = later.mean - earlier.mean;
    double within = within(earlier.varOfMean, later.varOfMean, each);
    double low = Math.exp(apart - within);
    double high = Math.exp(apart + within);
    double factor = Math.exp(apart);
    Verdict verdict = Verdict.ALIKE;
    if (low > 1 && factor >= MORE) {
      verdict = Verdict.MORE;
    } else if (high < 1 && factor <= LESS) {
      verdict = Verdict.LESS;
    }
    return Optional.of(new LossComparison(verdict, factor, low, high, each));
  }

  /** Half of the interval, with the degrees of freedom of Welch and Satterthwaite. */
  private static double within(double one, double other, int each) {
    double both = one + other;
    if (both == 0) {
      return 0;
    }
    double freedom = both * both * (each - 1) / (one * one + other * other);
    return new TDistribution(freedom).inverseCumulativeProbability(ONE_SIDED) * Math.sqrt(both);
  }

  private record Side(double mean, double varOfMean) {
    static Side of(double[] logs, int start, int count) {
      double mean = 0;
      for (int i = start; i < start + count; i++) {
        mean += logs[i] / count;
      }
      double squares = 0;
      for (int i = start; i < start + count; i++) {
        squares += (logs[i] - mean) * (logs[i] - mean);
      }
      return new Side(mean, squares / (count - 1) / count);
    }
  }
}
