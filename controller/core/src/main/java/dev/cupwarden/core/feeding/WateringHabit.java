package dev.cupwarden.core.feeding;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * How often a cup was watered lately and how much of it was refilled.
 *
 * @param recent the last waterings, oldest first, at most five
 */
public record WateringHabit(List<Watering> recent) {
  public static final WateringHabit NONE = new WateringHabit(List.of());

  /** Until so many are known, predicted use speaks instead. */
  private static final int KNOWN_AFTER = 3;

  private static final int KEPT = 5;

  /** A refill that was finished: when it began, and the part of the available water it brought. */
  public record Watering(Instant at, double refilledPart) {}

  public WateringHabit plus(Instant at, double refilledPart) {
    List<Watering> next = new ArrayList<>(recent);
    next.add(new Watering(at, refilledPart));
    return new WateringHabit(
        List.copyOf(next.subList(Math.max(0, next.size() - KEPT), next.size())));
  }

  public boolean known() {
    return recent.size() >= KNOWN_AFTER;
  }

  /** Mean days from one watering to the next; only if {@link #known()}. */
  public double everyDays() {
    Duration span = Duration.between(recent.get(0).at(), recent.get(recent.size() - 1).at());
    return span.toMillis() / 86_400_000.0 / (recent.size() - 1);
  }

  /** Mean part of the available water that a watering brought; only if {@link #known()}. */
  public double refilledPart() {
    double sum = 0.0;
    for (Watering watering : recent) {
      sum += watering.refilledPart();
    }
    return sum / recent.size();
  }
}
