package dev.cupwarden.app.service;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Whether the loop is alive: its last tick that really finished is not too long ago, and within a
 * tick something moves on. A tick that fails is no sign of life. Time is an argument.
 */
public final class LifeSigns {
  /**
   * Our choice: a scan of all sensors takes a few seconds, and a pump that runs gives a sign four
   * times a second.
   */
  static final Duration STALLED = Duration.ofSeconds(20);

  /** Our choice: two failed ticks may be a busy disk, three are not. */
  private static final int TICKS = 3;

  private static final long RESTING = Long.MAX_VALUE;

  private final long longestNanos;
  private final AtomicLong finishedNanos;
  private final AtomicLong movedNanos = new AtomicLong(RESTING);

  /**
   * @param tick period of the loop
   * @param settling how long the first tick waits after a start
   */
  public LifeSigns(Duration tick, Duration settling, long nowNanos) {
    this.longestNanos = tick.multipliedBy(TICKS).toNanos();
    this.finishedNanos = new AtomicLong(nowNanos + settling.toNanos());
  }

  /** A tick begins, or goes on. */
  public void moved(long nowNanos) {
    movedNanos.set(nowNanos);
  }

  /** The pump is running, and who runs it is alive; says nothing between ticks. */
  public void beat(long nowNanos) {
    movedNanos.updateAndGet(was -> was == RESTING ? was : nowNanos);
  }

  /** A tick is over, all of it done. */
  public void finished(long nowNanos) {
    finishedNanos.set(nowNanos);
    movedNanos.set(RESTING);
  }

  /** A tick is over without having done what it should. */
  public void failed() {
    movedNanos.set(RESTING);
  }

  /** Whether a watchdog may be fed. */
  public boolean alive(long nowNanos) {
    long moved = movedNanos.get();
    boolean stalled = moved != RESTING && nowNanos - moved > STALLED.toNanos();
    return !stalled && nowNanos - finishedNanos.get() <= longestNanos;
  }
}
