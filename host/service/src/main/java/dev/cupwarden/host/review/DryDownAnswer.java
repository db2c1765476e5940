package dev.cupwarden.host.review;

import com.fasterxml.jackson.annotation.JsonProperty;
import dev.cupwarden.core.substrate.DryDown;
import dev.cupwarden.core.substrate.DryDownFit;
import dev.cupwarden.core.substrate.DryDownPoint;
import dev.cupwarden.core.substrate.ExponentialDryDown;
import dev.cupwarden.core.substrate.LossComparison;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;

/**
 * What the page is told of a cup's dry-downs.
 *
 * @param dryDowns oldest first
 * @param change whether it drinks more or less than before; null where there are too few to tell
 */
public record DryDownAnswer(List<Each> dryDowns, Change change) {
  /** Enough for a line on a screen. */
  private static final int MOST_POINTS = 200;

  /** Those dry-downs, and what they say together. */
  public static DryDownAnswer of(List<DryDown> dryDowns) {
    return new DryDownAnswer(
        dryDowns.stream().map(Each::of).toList(),
        LossComparison.of(dryDowns).map(Change::of).orElse(null));
  }

  /**
   * One dry-down.
   *
   * @param startSeen whether it begins with a watering; else its beginning was cut off
   * @param hours since its first weighing, at most 200
   * @param massG at those
   * @param lossGPerHPerKpa over whole days; null where there is none
   * @param fit null where no curve runs through it
   */
  public record Each(
      Instant from,
      Instant to,
      boolean startSeen,
      double[] hours,
      double[] massG,
      double lostG,
      @JsonProperty("loss_g_h_kpa") Double lossGPerHPerKpa,
      Fit fit) {
    static Each of(DryDown one) {
      List<DryDownPoint> points = one.points();
      int step = 1 + (points.size() - 1) / MOST_POINTS;
      List<DryDownPoint> some =
          IntStream.range(0, points.size())
              .filter(i -> i % step == 0 || i == points.size() - 1)
              .mapToObj(points::get)
              .toList();
      return new Each(
          one.from(),
          one.to(),
          one.startSeen(),
          some.stream().mapToDouble(DryDownPoint::time).toArray(),
          some.stream().mapToDouble(DryDownPoint::grossG).toArray(),
          one.lostG(),
          one.loss().map(DryDown.Loss::gPerHPerKpa).orElse(null),
          Fit.of(one.fit()));
    }
  }

  /**
   * {@code asymptote + amplitude exp(-rate t)}, t in hours since the first weighing.
   *
   * @param halfLifeH null where the weighings do not tell where it ends
   */
  public record Fit(
      double asymptoteG,
      double amplitudeG,
      @JsonProperty("rate_per_h") double ratePerH,
      double rsdG,
      Double halfLifeH) {
    static Fit of(DryDownFit fit) {
      if (fit instanceof DryDownFit.Identified known) {
        return of(known.curve(), known.errors(), known.curve().halfLife());
      }
      return fit instanceof DryDownFit.AsymptoteUnclear unclear
          ? of(unclear.curve(), unclear.errors(), null)
          : null;
    }

    private static Fit of(ExponentialDryDown curve, DryDownFit.Errors errors, Double halfLifeH) {
      return new Fit(
          curve.asymptoteG(), curve.amplitudeG(), curve.ratePerTime(), errors.rsdG(), halfLifeH);
    }
  }

  /** Whether it drinks more or less than before, as {@link LossComparison} says. */
  public record Change(String verdict, double factor, double low, double high, int each) {
    static Change of(LossComparison found) {
      return new Change(
          found.verdict().name().toLowerCase(Locale.ROOT),
          found.factor(),
          found.low(),
          found.high(),
          found.each());
    }
  }
}
