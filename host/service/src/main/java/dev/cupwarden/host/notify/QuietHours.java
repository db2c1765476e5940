package dev.cupwarden.host.notify;

import dev.cupwarden.host.HostException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;

/**
 * When a person sleeps, in the person's own time.
 *
 * @param from {@code 22:00}
 * @param to {@code 07:00}, of the next day if it is earlier
 * @param zone {@code Europe/Berlin}
 */
public record QuietHours(String from, String to, String zone) {
  public QuietHours {
    try {
      boolean same = LocalTime.parse(from).equals(LocalTime.parse(to));
      if (same) {
        throw new HostException("quiet: from and to are the same.");
      }
      if (zone == null) {
        throw new HostException("quiet.zone: expected a time zone such as Europe/Berlin.");
      }
      ZoneId.of(zone);
    } catch (DateTimeException | NullPointerException wrong) {
      throw new HostException(
          "quiet: expected from and to such as \"22:00\" and a zone such as Europe/Berlin.", wrong);
    }
  }

  /** The given time if it is not quiet then, or else the end of the quiet. */
  Instant firstLoud(Instant time) {
    ZonedDateTime here = time.atZone(ZoneId.of(zone));
    LocalTime start = LocalTime.parse(from);
    LocalTime end = LocalTime.parse(to);
    LocalTime now = here.toLocalTime();
    boolean overnight = end.isBefore(start);
    boolean afterStart = !now.isBefore(start);
    boolean beforeEnd = now.isBefore(end);
    boolean quiet = overnight ? afterStart || beforeEnd : afterStart && beforeEnd;
    if (!quiet) {
      return time;
    }
    boolean endsTomorrow = overnight && afterStart;
    return here.toLocalDate()
        .plusDays(endsTomorrow ? 1 : 0)
        .atTime(end)
        .atZone(here.getZone())
        .toInstant();
  }
}
