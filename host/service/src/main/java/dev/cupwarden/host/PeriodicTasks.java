package dev.cupwarden.host;

import java.time.Duration;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What has to be done now and again, one thing after the other. */
final class PeriodicTasks implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(PeriodicTasks.class);
  private static final long CLOSE_LIMIT_S = 10;

  private final ScheduledExecutorService thread;

  /**
   * @param name of their thread
   */
  PeriodicTasks(String name) {
    thread =
        Executors.newSingleThreadScheduledExecutor(
            work -> {
              Thread daemon = new Thread(work, name);
              daemon.setDaemon(true);
              return daemon;
            });
  }

  /** From one pause after now on; what fails is told and tried again at its next turn. */
  void every(Duration pause, Runnable chore) {
    // It never ends of itself, and what fails is told by told().
    ScheduledFuture<?> unused =
        thread.scheduleWithFixedDelay(
            () -> told(chore), pause.toMillis(), pause.toMillis(), TimeUnit.MILLISECONDS);
  }

  private static void told(Runnable chore) {
    try {
      chore.run();
    } catch (RuntimeException failed) {
      LOG.warn("a chore failed and will be tried again: {}", failed.toString());
    }
  }

  @Override
  public void close() throws InterruptedException {
    thread.shutdown();
    if (!thread.awaitTermination(CLOSE_LIMIT_S, TimeUnit.SECONDS)) {
      thread.shutdownNow();
    }
  }
}
