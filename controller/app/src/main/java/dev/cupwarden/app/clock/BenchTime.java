package dev.cupwarden.app.clock;

import dev.cupwarden.board.Pace;
import java.time.Instant;

/**
 * Time for a bench: monotonic as {@link Pace}, with a wall clock beside it. Whoever waits is called
 * off by an interrupt: {@link #until} then returns early and the thread's mark stays set.
 */
public interface BenchTime extends Pace {
  /** What the wall clock shows; it may jump. */
  Instant wall();

  /** What is known of that clock besides. */
  default ClockEvidence evidence() {
    return ClockEvidence.NOTHING;
  }
}
