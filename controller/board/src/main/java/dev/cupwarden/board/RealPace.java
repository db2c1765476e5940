package dev.cupwarden.board;

import java.time.Duration;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Time as the machine has it. Repeated tasks run on one thread of their own, of the highest
 * priority, so that what must stop a pump does not queue behind other work.
 */
@SuppressWarnings("ThreadPriorityCheck") // Its turn only comes sooner; nothing is right by it.
public final class RealPace implements Pace, AutoCloseable {
  private final ScheduledExecutorService watch =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread thread = new Thread(work, "output-guard");
            thread.setDaemon(true);
            thread.setPriority(Thread.MAX_PRIORITY);
            return thread;
          });

  @Override
  public long nanos() {
    return System.nanoTime();
  }

  /** Also returns early when the thread is interrupted; its mark stays set. */
  @Override
  public void until(long nanos) {
    long left;
    while ((left = nanos - System.nanoTime()) > 0 && !Thread.currentThread().isInterrupted()) {
      LockSupport.parkNanos(left);
    }
  }

  @Override
  public Repeating every(Duration period, Runnable task) {
    ScheduledFuture<?> running =
        watch.scheduleAtFixedRate(task, period.toNanos(), period.toNanos(), TimeUnit.NANOSECONDS);
    return () -> running.cancel(false);
  }

  @Override
  public void close() {
    watch.shutdownNow();
  }
}
