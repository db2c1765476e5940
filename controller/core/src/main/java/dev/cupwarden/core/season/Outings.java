package dev.cupwarden.core.season;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/**
 * When a cup was off the bench, said or not.
 *
 * @param leftAt since when it is gone; null while it is there
 * @param past those that are over, oldest first
 */
public record Outings(Instant leftAt, List<Outing> past) {
  public static final Outings NONE = new Outings(null, List.of());

  /** A cup in the hand is not out: our choice. */
  public static final Duration LEAST = Duration.ofHours(1);

  /** So long they are kept. */
  private static final Duration KEPT = Duration.ofDays(14);

  /** Off the bench, and back. */
  public record Outing(Instant leftAt, Instant backAt) {}

  /** It is not there, since that time. */
  public Outings gone(Instant since) {
    return leftAt == null ? new Outings(since, past) : this;
  }

  /** It is there. */
  public Outings there(Instant at) {
    if (leftAt == null) {
      return this;
    }
    List<Outing> next = new ArrayList<>(past);
    next.removeIf(one -> one.backAt().isBefore(at.minus(KEPT)));
    if (Duration.between(leftAt, at).compareTo(LEAST) >= 0) {
      next.add(new Outing(leftAt, at));
    }
    return new Outings(null, List.copyOf(next));
  }

  /** On how many days of the last fortnight it was out, today with them. */
  public int days(Instant at, ZoneId zone) {
    TreeSet<LocalDate> days = new TreeSet<>();
    for (Outing one : past) {
      if (!one.backAt().isBefore(at.minus(KEPT))) {
        days.add(one.leftAt().atZone(zone).toLocalDate());
      }
    }
    if (leftAt != null && Duration.between(leftAt, at).compareTo(LEAST) >= 0) {
      days.add(leftAt.atZone(zone).toLocalDate());
    }
    return days.size();
  }
}
