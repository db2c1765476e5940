package dev.cupwarden.core.substrate;

import java.util.List;
import java.util.Optional;

/** Why no dry-down could be fitted. */
public enum Refusal {
  TOO_FEW("too few weighings for this curve"),
  NOT_FINITE("a time or mass is not a number"),
  TIMES_NOT_RISING("two weighings at one time, or out of order"),
  NOT_FALLING("the cup does not lose water, or less than its scale's noise"),
  NO_CURVE("no curve of this form fits");

  private final String sentence;

  Refusal(String sentence) {
    this.sentence = sentence;
  }

  /** For a person. */
  public String sentence() {
    return sentence;
  }

  /** What is wrong with the points as such, if anything. */
  static Optional<Refusal> of(List<DryDownPoint> points, int least) {
    for (DryDownPoint point : points) {
      if (!Double.isFinite(point.time()) || !Double.isFinite(point.grossG())) {
        return Optional.of(NOT_FINITE);
      }
    }
    for (int i = 1; i < points.size(); i++) {
      if (points.get(i).time() <= points.get(i - 1).time()) {
        return Optional.of(TIMES_NOT_RISING);
      }
    }
    if (points.size() < least) {
      return Optional.of(TOO_FEW);
    }
    double[] time = points.stream().mapToDouble(DryDownPoint::time).toArray();
    double[] grossG = points.stream().mapToDouble(DryDownPoint::grossG).toArray();
    boolean falls = LineFit.of(x -> x, time, grossG).slope() < 0;
    return falls ? Optional.empty() : Optional.of(NOT_FALLING);
  }
}
