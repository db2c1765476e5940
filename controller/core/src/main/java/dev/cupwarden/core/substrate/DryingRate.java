package dev.cupwarden.core.substrate;

import java.util.List;

/** Mean change of a cup's mass, g per unit of the points' time; negative while it dries. */
public final class DryingRate {
  private DryingRate() {}

  /**
   * Slope of the straight line of least squares.
   *
   * @param points at least two, at different times
   * @throws IllegalArgumentException for fewer points, or times that do not differ
   */
  public static double leastSquares(List<DryDownPoint> points) {
    double meanTime = points.stream().mapToDouble(DryDownPoint::time).average().orElse(Double.NaN);
    double meanG = points.stream().mapToDouble(DryDownPoint::grossG).average().orElse(Double.NaN);
    double covered = 0;
    double together = 0;
    for (DryDownPoint point : points) {
      double off = point.time() - meanTime;
      covered += off * off;
      together += off * (point.grossG() - meanG);
    }
    if (!(covered > 0)) {
      throw tooFew(points);
    }
    return together / covered;
  }

  private static IllegalArgumentException tooFew(List<DryDownPoint> points) {
    return new IllegalArgumentException(
        "points must be at least two finite ones at different times, not " + points.size());
  }
}
