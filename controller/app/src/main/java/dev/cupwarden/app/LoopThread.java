package dev.cupwarden.app;

import dev.cupwarden.app.loop.BenchLoop;
import java.time.Duration;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The thread on which a loop ticks. */
final class LoopThread implements AutoCloseable {
  private static final Logger log = LoggerFactory.getLogger(LoopThread.class);
  private static final Duration LAST_TICK = Duration.ofSeconds(5);

  private final BenchLoop loop;
  private final Thread thread;

  private LoopThread(BenchLoop loop, Consumer<Throwable> broken) {
    this.loop = loop;
    this.thread = new Thread(loop::run, "loop");
    thread.setUncaughtExceptionHandler((own, why) -> broken.accept(why));
  }

  /**
   * @param broken told when the thread has ended by itself, with its outputs off; a process without
   *     it must not go on as if it were alive
   */
  static LoopThread start(BenchLoop loop, Consumer<Throwable> broken) {
    LoopThread started = new LoopThread(loop, broken);
    started.thread.start();
    return started;
  }

  /** Stops the loop, and waits for its last tick for as long as one may take. */
  @Override
  public void close() {
    loop.stop();
    try {
      thread.join(LAST_TICK.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    if (thread.isAlive()) {
      log.warn("The last tick did not end within {} s", LAST_TICK.toSeconds());
    }
  }
}
