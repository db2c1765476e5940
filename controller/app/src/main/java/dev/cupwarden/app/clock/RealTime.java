package dev.cupwarden.app.clock;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;

/** The time of the machine. */
public final class RealTime implements BenchTime {
  private final Clock wall = Clock.systemUTC();
  private final Waiting waiting = new Waiting();
  private final ScheduledExecutorService repeating =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread thread = new Thread(task, "bench-time");
            thread.setDaemon(true);
            // A dead-man that comes late is no dead-man.
            thread.setPriority(Thread.MAX_PRIORITY);
            return thread;
          });

  @Override
  public Instant wall() {
    return wall.instant();
  }

  @Override
  public long nanos() {
    return System.nanoTime();
  }

  @Override
  public void until(long nanos) {
    waiting.await(nanos - System.nanoTime());
  }

  @Override
  public Repeating every(Duration period, Runnable task) {
    ScheduledFuture<?> future =
        repeating.scheduleAtFixedRate(
            task, period.toNanos(), period.toNanos(), TimeUnit.NANOSECONDS);
    return () -> future.cancel(false);
  }

  /** Ends all waiting; repeated tasks go on until their handles are closed. */
  @Override
  public void close() {
    waiting.end();
  }
}
