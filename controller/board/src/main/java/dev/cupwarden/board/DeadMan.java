package dev.cupwarden.board;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Tells when the dosing loop has not given a sign of life for too long. Time is an argument; who
 * looks and what is switched off then is {@link Outputs}'.
 */
final class DeadMan {
  /**
   * Outputs are off within 2 s of the last beat: what is left of that is for the look every {@link
   * #LOOK_EVERY} and the switching itself.
   */
  static final Duration BEAT_WITHIN = Duration.ofMillis(1800);

  static final Duration LOOK_EVERY = Duration.ofMillis(100);

  private final AtomicLong lastBeatNanos;

  DeadMan(long nowNanos) {
    lastBeatNanos = new AtomicLong(nowNanos);
  }

  /** The dosing loop is alive. */
  void beat(long nowNanos) {
    lastBeatNanos.set(nowNanos);
  }

  /** Whether the last beat is too long ago. */
  boolean overdue(long nowNanos) {
    return nowNanos - lastBeatNanos.get() > BEAT_WITHIN.toNanos();
  }
}
