package dev.cupwarden.board;

import java.time.Duration;

/**
 * How the board sees time: a monotonic clock and ways to wait on it. A real bench waits for real; a
 * simulated one moves its virtual time forward instead.
 */
public interface Pace {
  /** Monotonic time in nanoseconds, from an origin of its own. */
  long nanos();

  /**
   * Returns when {@link #nanos} has reached that value, at once when it already has, or early when
   * the thread is interrupted.
   */
  void until(long nanos);

  /** Runs a short task again and again, apart from the caller, until the handle is closed. */
  Repeating every(Duration period, Runnable task);

  /** Returns after that time. */
  default void pause(Duration time) {
    until(nanos() + time.toNanos());
  }

  /** A repeated task; closing it ends it. */
  interface Repeating extends AutoCloseable {
    @Override
    void close();
  }
}
