package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;

/**
 * Half of a cup's room for a rescue or a person's order, where what it lost allows less: a cup that
 * is bone-dry loses nothing, and must not be left for that. Once in 24 h.
 *
 * @param at when it was begun; null: never
 * @param ml all of it
 */
public record HalfRoom(Instant at, double ml) {
  public static final HalfRoom NONE = new HalfRoom(null, 0.0);

  private static final Duration ONCE_IN = Duration.ofHours(24);

  /** Whether one was begun within the last 24 h. */
  public boolean begun(Instant now) {
    return at != null && now.isBefore(at.plus(ONCE_IN));
  }
}
