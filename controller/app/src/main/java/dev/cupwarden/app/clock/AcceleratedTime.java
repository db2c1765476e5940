package dev.cupwarden.app.clock;

import dev.cupwarden.simulator.VirtualTime;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.locks.LockSupport;

/**
 * Virtual time at a chosen speed: while someone waits, the simulated world moves on in small steps,
 * each after its share of real time. Nothing moves while no one waits, so a slow computer gets a
 * slower world and not another one.
 */
public final class AcceleratedTime implements BenchTime {
  /** As fast as the machine can: no real time passes in waiting. */
  public static final double UNBOUNDED = Double.POSITIVE_INFINITY;

  private static final long REAL_STEP_NANOS = Duration.ofMillis(20).toNanos();

  private final VirtualTime world;
  private final double speed;
  private long realDueNanos = System.nanoTime();

  /**
   * @param speed virtual seconds per real second, above 0; {@link #UNBOUNDED} for no waiting
   */
  public AcceleratedTime(VirtualTime world, double speed) {
    if (!(speed > 0)) {
      throw new IllegalArgumentException("The speed must be above 0, not " + speed + ".");
    }
    this.world = world;
    this.speed = speed;
  }

  @Override
  public Instant wall() {
    return world.now();
  }

  @Override
  public long nanos() {
    return world.nanos();
  }

  @Override
  public void until(long nanos) {
    if (speed == UNBOUNDED) {
      world.advanceTo(nanos);
      return;
    }
    long stepNanos = Math.max(1, (long) (REAL_STEP_NANOS * speed));
    // Real time that the loop itself has used is made up for, but no more than one step of it.
    realDueNanos = Math.max(realDueNanos, System.nanoTime() - REAL_STEP_NANOS);
    while (world.nanos() < nanos) {
      long next = Math.min(nanos, world.nanos() + stepNanos);
      realDueNanos += (long) ((next - world.nanos()) / speed);
      if (!parkedUntil(realDueNanos)) {
        return;
      }
      world.advanceTo(next);
    }
  }

  /** False when interrupted. */
  private static boolean parkedUntil(long dueNanos) {
    long left;
    while ((left = dueNanos - System.nanoTime()) > 0) {
      if (Thread.currentThread().isInterrupted()) {
        return false;
      }
      LockSupport.parkNanos(left);
    }
    return !Thread.currentThread().isInterrupted();
  }

  @Override
  public Repeating every(Duration period, Runnable task) {
    VirtualTime.Handle handle = world.every(period, task);
    return handle::close;
  }
}
