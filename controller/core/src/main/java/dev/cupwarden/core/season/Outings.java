package dev.cupwarden.core.season;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/**
 * When a cup was off the bench, said or not.
 *
 * @param leftAt since when it is gone; null while it is there
 * @param past those that are over, oldest first
 * @param hardS for how many seconds of the time since {@code leftAt} the weather was too hard; 0 in
 *     an older journal
 */
public record Outings(Instant leftAt, List<Outing> past, long hardS) {
  public static final Outings NONE = new Outings(null, List.of(), 0L);

  /** A cup in the hand is not out: our choice. */
  public static final Duration LEAST = Duration.ofHours(1);

  /** So long they are kept. */
  private static final Duration KEPT = Duration.ofDays(14);

  /** So many days out at like times are a habit: our choice. */
  public static final int LIKE_DAYS = 3;

  /** Times of the day within so many minutes of each other are alike: our choice. */
  static final int LIKE_MIN = 150;

  /** A weekend may lie between: our choice. */
  private static final Duration HABIT_SPAN = Duration.ofDays(7);

  /** So much later than on any of those days, and it has been forgotten: our choice. */
  static final Duration LATER_THAN_EVER = Duration.ofHours(2);

  /** Out for longer it has moved house: our choice. */
  private static final Duration A_DAY = Duration.ofHours(24);

  /**
   * Off the bench, and back.
   *
   * @param hardS for how many seconds of it the weather was too hard; 0 in an older journal
   */
  public record Outing(Instant leftAt, Instant backAt, long hardS) {
    boolean byDay(ZoneId zone) {
      return leftAt.atZone(zone).toLocalDate().equals(backAt.atZone(zone).toLocalDate());
    }
  }

  /** It is not there, since that time. */
  public Outings gone(Instant since) {
    return leftAt == null ? new Outings(since, past, 0L) : this;
  }

  /**
   * In weather that was too hard since the last look: that time hardens nothing.
   *
   * @param lastLook null at the first
   */
  public Outings inHardWeather(Instant lastLook, Instant at) {
    if (leftAt == null || lastLook == null) {
      return this;
    }
    Instant from = leftAt.isAfter(lastLook) ? leftAt : lastLook;
    return new Outings(leftAt, past, hardS + Math.max(0L, Duration.between(from, at).toSeconds()));
  }

  /** Whether it is out now: longer than in a hand, and not for so long that it stands elsewhere. */
  public boolean out(Instant at) {
    return leftAt != null
        && Duration.between(leftAt, at).compareTo(LEAST) >= 0
        && Duration.between(leftAt, at).compareTo(A_DAY) < 0;
  }

  /** It is there. */
  public Outings there(Instant at) {
    if (leftAt == null) {
      return this;
    }
    List<Outing> next = new ArrayList<>(past);
    next.removeIf(one -> one.backAt().isBefore(at.minus(KEPT)));
    if (Duration.between(leftAt, at).compareTo(LEAST) >= 0) {
      next.add(new Outing(leftAt, at, hardS));
    }
    return new Outings(null, List.copyOf(next), 0L);
  }

  /**
   * On how many days of the last fortnight it was out in weather that hardens, today with them; an
   * hour of such weather makes a day.
   */
  public int days(Instant at, ZoneId zone) {
    TreeSet<LocalDate> days = new TreeSet<>();
    for (Outing one : past) {
      if (!one.backAt().isBefore(at.minus(KEPT))
          && hardened(one.leftAt(), one.backAt(), one.hardS())) {
        days.add(one.leftAt().atZone(zone).toLocalDate());
      }
    }
    if (leftAt != null && hardened(leftAt, at, hardS)) {
      days.add(leftAt.atZone(zone).toLocalDate());
    }
    return days.size();
  }

  private static boolean hardened(Instant leftAt, Instant backAt, long hardS) {
    return Duration.between(leftAt, backAt).minusSeconds(hardS).compareTo(LEAST) >= 0;
  }

  /**
   * By when it is expected back, where it left as it has on the last {@link #LIKE_DAYS} days out:
   * each on a day of its own, within a week, and all at like times of the day. A night out is no
   * day out: one on which it was forgotten ends no habit.
   *
   * @param zone of the bench
   */
  public Optional<Instant> expectedBack(ZoneId zone) {
    if (leftAt == null) {
      return Optional.empty();
    }
    List<Outing> byDay = past.stream().filter(one -> one.byDay(zone)).toList();
    if (byDay.size() < LIKE_DAYS) {
      return Optional.empty();
    }
    List<Outing> last = byDay.subList(byDay.size() - LIKE_DAYS, byDay.size());
    TreeSet<LocalDate> days = new TreeSet<>();
    int earliestLeft = minute(leftAt, zone);
    int latestLeft = earliestLeft;
    int earliestBack = Integer.MAX_VALUE;
    int latestBack = 0;
    for (Outing one : last) {
      if (one.leftAt().isBefore(leftAt.minus(HABIT_SPAN))) {
        return Optional.empty();
      }
      days.add(one.leftAt().atZone(zone).toLocalDate());
      earliestLeft = Math.min(earliestLeft, minute(one.leftAt(), zone));
      latestLeft = Math.max(latestLeft, minute(one.leftAt(), zone));
      earliestBack = Math.min(earliestBack, minute(one.backAt(), zone));
      latestBack = Math.max(latestBack, minute(one.backAt(), zone));
    }
    LocalDate today = leftAt.atZone(zone).toLocalDate();
    boolean like =
        days.size() == LIKE_DAYS
            && !days.contains(today)
            && latestLeft - earliestLeft <= LIKE_MIN
            && latestBack - earliestBack <= LIKE_MIN;
    return like
        ? Optional.of(
            today.atStartOfDay(zone).plusMinutes(latestBack).plus(LATER_THAN_EVER).toInstant())
        : Optional.empty();
  }

  private static int minute(Instant at, ZoneId zone) {
    return at.atZone(zone).toLocalTime().toSecondOfDay() / 60;
  }
}
