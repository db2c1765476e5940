package dev.cupwarden.app;

import dev.cupwarden.app.loop.BenchLoop;
import java.time.Duration;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The thread on which a loop ticks. */
final class LoopThread implements AutoCloseable {
  private static final Logger log = LoggerFactory.getLogger(LoopThread.class);
  private static final Duration LAST_TICK = Duration.ofSeconds(5);

  private final BenchLoop loop;
  private final Thread thread;

  private LoopThread(BenchLoop loop) {
    this.loop = loop;
    this.thread = new Thread(loop::run, "loop");
  }

  static LoopThread start(BenchLoop loop) {
    LoopThread started = new LoopThread(loop);
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
