package dev.cupwarden.core.limits;

import java.time.Instant;

/**
 * A person's word that nothing is to be watered, or nothing fed, for a time; it ends by itself.
 *
 * @param until first moment after it
 * @param feedOnly water goes on, feed does not
 * @param rescue lets a rescue through
 */
public record Hold(Instant until, boolean feedOnly, boolean rescue) {

  /** Whether it still holds at that time. */
  public boolean holdsAt(Instant at) {
    return at.isBefore(until);
  }

  /** Whether at that time it holds water, and not feed alone. */
  public boolean holdsWaterAt(Instant at) {
    return !feedOnly && holdsAt(at);
  }
}
