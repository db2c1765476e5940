package dev.cupwarden.app.clock;

import dev.cupwarden.board.Pace;
import java.time.Instant;

/** Time for a bench: monotonic as {@link Pace}, with a wall clock beside it. */
public interface BenchTime extends Pace, AutoCloseable {
  /** What the wall clock shows; it may jump. */
  Instant wall();

  /**
   * No one waits any longer: every {@link #until}, also one that has begun, returns at once. For
   * the program's end.
   */
  @Override
  void close();
}
