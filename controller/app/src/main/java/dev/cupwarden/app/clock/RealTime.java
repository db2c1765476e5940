package dev.cupwarden.app.clock;

import dev.cupwarden.board.RealPace;
import dev.cupwarden.core.setup.BoardWiring.ClockChip;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** The time of the machine. */
public final class RealTime implements BenchTime, AutoCloseable {
  private final Clock wall = Clock.systemUTC();
  private final RealPace pace = new RealPace();
  private final ClockEvidence evidence;

  /** Of a machine of whose clock nothing need be known. */
  public RealTime() {
    this(Optional.empty());
  }

  /**
   * @param chip the clock chip that the bench file names
   */
  public RealTime(Optional<ClockChip> chip) {
    this.evidence = new MachineClock(chip);
  }

  @Override
  public Instant wall() {
    return wall.instant();
  }

  @Override
  public ClockEvidence evidence() {
    return evidence;
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
