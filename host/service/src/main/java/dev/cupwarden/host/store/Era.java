package dev.cupwarden.host.store;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;

/**
 * The times that the store takes. A clock may be wrong by years and what it says is kept all the
 * same; a time beyond this is no clock's, and some column or sum could not bear it.
 */
public final class Era {
  public static final Instant EARLIEST = Instant.EPOCH;
  public static final Instant LATEST = Instant.parse("2200-01-01T00:00:00Z");

  private Era() {}

  /**
   * A time as a person writes it.
   *
   * @throws DateTimeException with what was expected, as the rest of a sentence
   */
  public static Instant read(String text) {
    Instant time;
    try {
      time = OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeParseException notATime) {
      throw new DateTimeException("expected a time such as 2027-02-14T08:00:00Z", notATime);
    }
    if (!holds(time)) {
      throw new DateTimeException("expected a time from " + EARLIEST + " to " + LATEST);
    }
    return time;
  }

  /** Whether that time is among them. */
  public static boolean holds(Instant time) {
    return !time.isBefore(EARLIEST) && !time.isAfter(LATEST);
  }
}
