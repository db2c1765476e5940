package dev.cupwarden.app.clock;

import dev.cupwarden.board.RealPace;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;

/** The time of the machine. */
public final class RealTime implements BenchTime, AutoCloseable {
  private final Clock wall = Clock.systemUTC();
  private final RealPace pace = new RealPace();

  @Override
  public Instant wall() {
    return wall.instant();
  }

  @Override
  public long nanos() {
    return pace.nanos();
  }

  @Override
  public void until(long nanos) {
    pace.until(nanos);
  }

  @Override
  public Repeating every(Duration period, Runnable task) {
    return pace.every(period, task);
  }

  @Override
  public void close() {
    pace.close();
  }
}
