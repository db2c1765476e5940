package dev.cupwarden.core.orders;

import dev.cupwarden.core.units.Quoted;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;

/** An RFC 3339 time in an order's field. */
final class Rfc3339Time {
  private Rfc3339Time() {}

  static Instant read(String field, String text) throws OrderRefused {
    try {
      return OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeException notOne) {
      throw new OrderRefused(
          field
              + ": expected an RFC 3339 time such as 2027-02-14T08:00:00Z, not "
              + Quoted.text(text));
    }
  }
}
