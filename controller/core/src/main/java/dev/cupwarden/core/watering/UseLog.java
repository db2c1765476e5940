package dev.cupwarden.core.watering;

import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What a cup lost to air and plant over the last three days, in quarters of a day.
 *
 * @param closed full quarters, oldest first
 * @param closedLostG what was lost in them together
 * @param closedSeenH hours of them that were seen
 * @param open the quarter that still runs; null before the first loss
 */
public record UseLog(List<Quarter> closed, double closedLostG, double closedSeenH, Quarter open) {
  public static final UseLog EMPTY = new UseLog(List.of(), 0.0, 0.0, null);

  /** A loss is logged over gaps up to this; over longer ones nobody saw it. */
  public static final double LONGEST_GAP_H = 2.0;

  private static final Duration SPAN = Duration.ofHours(72);
  private static final double QUARTER_H = 6.0;

  /** Most of three days must have been seen before they say what a cup uses. */
  private static final double KNOWN_AFTER_H = 60.0;

  /** Six hours: what was lost in the hours of them that were seen. */
  public record Quarter(Instant from, double lostG, double seenH) {}

  /** The log with so much loss over so many hours before {@code at}. */
  public UseLog plus(Instant at, double lostG, double hours) {
    if (open == null) {
      return new UseLog(closed, closedLostG, closedSeenH, new Quarter(at, lostG, hours));
    }
    if (Elapsed.hours(open.from(), at) < QUARTER_H) {
      Quarter longer = new Quarter(open.from(), open.lostG() + lostG, open.seenH() + hours);
      return new UseLog(closed, closedLostG, closedSeenH, longer);
    }
    List<Quarter> next = new ArrayList<>(closed.size() + 1);
    Instant oldest = at.minus(SPAN);
    for (Quarter quarter : closed) {
      if (quarter.from().isAfter(oldest)) {
        next.add(quarter);
      }
    }
    next.add(open);
    double sumG = 0.0;
    double sumH = 0.0;
    for (Quarter quarter : next) {
      sumG += quarter.lostG();
      sumH += quarter.seenH();
    }
    return new UseLog(List.copyOf(next), sumG, sumH, new Quarter(at, lostG, hours));
  }

  /** Whether three days of use are known. */
  public boolean known() {
    return seenH() >= KNOWN_AFTER_H;
  }

  /** Grams lost a day over what was seen; NaN where less than a day was. */
  public double lostPerDayG() {
    double seenH = seenH();
    return seenH >= 24.0 ? lostG() * 24.0 / seenH : Double.NaN;
  }

  private double lostG() {
    return open == null ? closedLostG : open.lostG() + closedLostG;
  }

  private double seenH() {
    return open == null ? closedSeenH : open.seenH() + closedSeenH;
  }
}
