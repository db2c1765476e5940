package dev.cupwarden.host.app;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What is to be closed when the program ends, newest first, once, whether it ends by itself or by
 * Ctrl-C.
 */
final class CloseOnExit implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(CloseOnExit.class);
  private final Deque<AutoCloseable> parts = new ArrayDeque<>();
  private final CountDownLatch told = new CountDownLatch(1);
  private final Thread onSignal = new Thread(this::closeAll, "end");

  CloseOnExit() {
    Runtime.getRuntime().addShutdownHook(onSignal);
  }

  synchronized <T extends AutoCloseable> T closes(T part) {
    parts.push(part);
    return part;
  }

  /** True once the end has begun; waits so long for it. */
  boolean comes(long limitMs) throws InterruptedException {
    return told.await(limitMs, TimeUnit.MILLISECONDS);
  }

  /** Waits for the end to begin. */
  void comes() throws InterruptedException {
    told.await();
  }

  private void closeAll() {
    told.countDown();
    synchronized (this) {
      while (!parts.isEmpty()) {
        AutoCloseable part = parts.pop();
        try {
          part.close();
        } catch (Exception failed) {
          // Whatever fails at the end, the rest must still be closed.
          LOG.warn("Ending: {}", failed.toString());
        }
      }
    }
  }

  @Override
  public void close() {
    closeAll();
    try {
      Runtime.getRuntime().removeShutdownHook(onSignal);
    } catch (IllegalStateException endingAlready) {
      LOG.debug("the program ends already", endingAlready);
    }
  }
}
