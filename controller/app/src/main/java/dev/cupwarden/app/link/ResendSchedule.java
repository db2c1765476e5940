package dev.cupwarden.app.link;

import java.time.Duration;

/**
 * When what no host has kept is told again: 20 s after the last sign that one keeps, and ever more
 * rarely while there is none, up to once an hour. Only a mark that has moved is such a sign; a host
 * also tells one that stands, with everything it hears, and while a gap stands that would have the
 * whole outbox told again and again.
 *
 * <p>Times are in nanoseconds of one monotonic clock.
 */
final class ResendSchedule {
  static final Duration FIRST = Duration.ofSeconds(20);
  static final Duration RAREST = Duration.ofHours(1);

  private Duration wait = FIRST;
  private long dueNanos;

  /** Everything has just been told from the mark on, over a new connection. */
  void toldAll(long nowNanos) {
    dueNanos = nowNanos + wait.toNanos();
  }

  /** A host keeps: what is left is not told again soon. */
  void keptMoved(long nowNanos) {
    wait = FIRST;
    dueNanos = nowNanos + wait.toNanos();
  }

  boolean isDue(long nowNanos) {
    return nowNanos - dueNanos >= 0;
  }

  /** What is unkept is told again now; the next time comes later. */
  void again(long nowNanos) {
    wait = wait.multipliedBy(2);
    wait = wait.compareTo(RAREST) > 0 ? RAREST : wait;
    dueNanos = nowNanos + wait.toNanos();
  }

  /** From one telling to the next. */
  Duration interval() {
    return wait;
  }
}
