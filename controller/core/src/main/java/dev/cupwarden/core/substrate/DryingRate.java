package dev.cupwarden.core.substrate;

import java.util.Arrays;
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

  /**
   * Median of the slopes between all pairs of points, which a few wild readings do not move. Takes
   * time in proportion to the square of the number of points.
   *
   * <p>Source: Theil 1950, Sen 1968, J. Am. Stat. Assoc. 63:1379.
   *
   * @param points at least two, in order of time, at different times
   * @throws IllegalArgumentException for fewer points, or times that do not rise
   */
  public static double robust(List<DryDownPoint> points) {
    int n = points.size();
    if (n < 2) {
      throw tooFew(points);
    }
    double[] slopes = new double[n * (n - 1) / 2];
    int next = 0;
    for (int i = 1; i < n; i++) {
      DryDownPoint late = points.get(i);
      for (int j = 0; j < i; j++) {
        double gap = late.time() - points.get(j).time();
        if (!(gap > 0)) {
          throw new IllegalArgumentException("times must rise, not " + late.time());
        }
        slopes[next++] = (late.grossG() - points.get(j).grossG()) / gap;
      }
    }
    Arrays.sort(slopes);
    int middle = slopes.length / 2;
    return slopes.length % 2 == 1 ? slopes[middle] : (slopes[middle - 1] + slopes[middle]) / 2;
  }

  private static IllegalArgumentException tooFew(List<DryDownPoint> points) {
    return new IllegalArgumentException(
        "points must be at least two finite ones at different times, not " + points.size());
  }
}
