package dev.cupwarden.core.substrate;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * How one cup dried from one disturbance to the next.
 *
 * @param from its first weighing
 * @param startSeen whether it begins with a watering; else its beginning was cut off: by the first
 *     weighing of all, a gap, or a cup put back
 * @param points hours since its first weighing, gross grams
 * @param fit the curve through them
 * @param loss what it is compared by; empty where it is shorter than a day, or the air was not
 *     known
 */
public record DryDown(
    Instant from,
    boolean startSeen,
    List<DryDownPoint> points,
    DryDownFit fit,
    Optional<Loss> loss) {
  /**
   * Loss over whole days, in which light and dark count alike whatever the hour of the start.
   *
   * @param days how many, 1 or more
   * @param gPerHPerKpa g/h for each kPa of drying power ({@link
   *     dev.cupwarden.core.climate.DryingPower}) of the air of those days
   */
  public record Loss(int days, double gPerHPerKpa) {}

  public DryDown {
    points = List.copyOf(points);
  }

  public double hours() {
    return points.get(points.size() - 1).time();
  }

  /** Its last weighing. */
  public Instant to() {
    return from.plus(Duration.ofSeconds(Math.round(hours() * 3600)));
  }

  public double lostG() {
    return points.get(0).grossG() - points.get(points.size() - 1).grossG();
  }

  public double rateGPerH() {
    return lostG() / hours();
  }

  /** Hours in which half of what can dry has dried, where the weighings tell. */
  public Optional<Double> halfLifeH() {
    return fit instanceof DryDownFit.Identified known
        ? Optional.of(known.curve().halfLife())
        : Optional.empty();
  }
}
