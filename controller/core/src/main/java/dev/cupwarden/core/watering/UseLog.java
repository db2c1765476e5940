package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What a cup lost to air and plant over the last three days, in quarters of a day.
 *
 * @param quarters oldest first
 */
public record UseLog(List<Quarter> quarters) {
  public static final UseLog EMPTY = new UseLog(List.of());

  private static final Duration SPAN = Duration.ofHours(72);
  private static final Duration QUARTER = Duration.ofHours(6);

  /** Most of three days must have been seen before they say what a cup uses. */
  private static final double KNOWN_AFTER_H = 60.0;

  /** Six hours: what was lost in the hours of them that were seen. */
  public record Quarter(Instant from, double lostG, double seenH) {}

  /** The log with so much loss over so many hours before {@code at}. */
  public UseLog plus(Instant at, double lostG, double hours) {
    List<Quarter> next = new ArrayList<>(quarters.size() + 1);
    Instant oldest = at.minus(SPAN);
    for (Quarter quarter : quarters) {
      if (quarter.from().isAfter(oldest)) {
        next.add(quarter);
      }
    }
    Quarter last = next.isEmpty() ? null : next.get(next.size() - 1);
    if (last != null && at.isBefore(last.from().plus(QUARTER))) {
      next.set(
          next.size() - 1, new Quarter(last.from(), last.lostG() + lostG, last.seenH() + hours));
    } else {
      next.add(new Quarter(at, lostG, hours));
    }
    return new UseLog(List.copyOf(next));
  }

  /** Whether three days of use are known. */
  public boolean known() {
    return seenH() >= KNOWN_AFTER_H;
  }

  /** Grams lost in three days, scaled to the whole of them; only if {@link #known()}. */
  public double lostIn3DaysG() {
    return lostG() * SPAN.toHours() / seenH();
  }

  /** Grams lost a day over what was seen; NaN where less than a day was. */
  public double lostPerDayG() {
    return seenH() >= 24.0 ? lostG() * 24.0 / seenH() : Double.NaN;
  }

  private double lostG() {
    double sumG = 0.0;
    for (Quarter quarter : quarters) {
      sumG += quarter.lostG();
    }
    return sumG;
  }

  private double seenH() {
    double sumH = 0.0;
    for (Quarter quarter : quarters) {
      sumH += quarter.seenH();
    }
    return sumH;
  }
}
