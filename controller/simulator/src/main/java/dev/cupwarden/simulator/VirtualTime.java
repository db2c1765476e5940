package dev.cupwarden.simulator;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Time that stands still until it is moved. Monotonic nanoseconds count from 0; the wall clock is
 * the start plus those, and may be set on its own to play a clock that jumps.
 *
 * <p>To run the board on it, make a {@code Pace} whose {@code nanos} is {@link #nanos}, whose
 * {@code until} is {@link #advanceTo(long)} and whose {@code every} is {@link #every}.
 */
public final class VirtualTime {
  private final List<Task> tasks = new ArrayList<>();
  private Instant wallAtZero;
  private long nanos;

  public VirtualTime(Instant start) {
    this.wallAtZero = start;
  }

  /** Monotonic nanoseconds since the start. */
  public synchronized long nanos() {
    return nanos;
  }

  /** What the wall clock shows. */
  public synchronized Instant now() {
    return wallAtZero.plusNanos(nanos);
  }

  /** Sets the wall clock; monotonic time does not move. */
  public synchronized void setWall(Instant instant) {
    wallAtZero = instant.minusNanos(nanos);
  }

  /** Moves on to that monotonic time, running what falls due on the way; never moves back. */
  public void advanceTo(long untilNanos) {
    for (Optional<Task> due = nextDue(untilNanos); due.isPresent(); due = nextDue(untilNanos)) {
      due.get().work.run();
    }
    synchronized (this) {
      nanos = Math.max(nanos, untilNanos);
    }
  }

  /** Moves on to that time of the wall clock. */
  public void advanceTo(Instant instant) {
    advanceBy(Duration.between(now(), instant));
  }

  /** Moves on by that much. */
  public void advanceBy(Duration time) {
    advanceTo(nanos() + time.toNanos());
  }

  /**
   * Runs the work every {@code period} of virtual time, in the thread that moves time, until the
   * handle is closed.
   *
   * @param period above zero
   */
  public Handle every(Duration period, Runnable work) {
    if (period.isZero() || period.isNegative()) {
      throw new IllegalArgumentException("A period must be longer than nothing, not " + period);
    }
    synchronized (this) {
      Task task = new Task(work, period.toNanos(), nanos + period.toNanos());
      tasks.add(task);
      return () -> remove(task);
    }
  }

  private synchronized void remove(Task task) {
    tasks.remove(task);
  }

  private synchronized Optional<Task> nextDue(long untilNanos) {
    Optional<Task> first =
        tasks.stream()
            .filter(task -> task.dueNanos <= untilNanos)
            .min(Comparator.comparingLong(task -> task.dueNanos));
    first.ifPresent(
        task -> {
          nanos = Math.max(nanos, task.dueNanos);
          task.dueNanos += task.periodNanos;
        });
    return first;
  }

  /** A repeated task; closing it ends it. */
  public interface Handle extends AutoCloseable {
    @Override
    void close();
  }

  private static final class Task {
    final Runnable work;
    final long periodNanos;
    long dueNanos;

    Task(Runnable work, long periodNanos, long dueNanos) {
      this.work = work;
      this.periodNanos = periodNanos;
      this.dueNanos = dueNanos;
    }
  }
}
