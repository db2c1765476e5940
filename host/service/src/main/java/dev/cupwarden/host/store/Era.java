package dev.cupwarden.host.store;

import java.time.Instant;

/**
 * The times that the store takes. A clock may be wrong by years and what it says is kept all the
 * same; a time beyond this is no clock's, and some column or sum could not bear it.
 */
public final class Era {
  public static final Instant EARLIEST = Instant.EPOCH;
  public static final Instant LATEST = Instant.parse("2200-01-01T00:00:00Z");

  private Era() {}

  /** Whether that time is among them. */
  public static boolean holds(Instant time) {
    return !time.isBefore(EARLIEST) && !time.isAfter(LATEST);
  }
}
