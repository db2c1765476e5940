package dev.cupwarden.app.clock;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Waits by the operating system's monotonic clock, until the time has come or all waiting ends. */
final class Waiting {
  private final CountDownLatch over = new CountDownLatch(1);

  /**
   * @param nanos how long; at once when not above zero
   * @return false when waiting has ended for good
   */
  boolean await(long nanos) {
    try {
      return !over.await(Math.max(0, nanos), TimeUnit.NANOSECONDS);
    } catch (InterruptedException e) {
      // Whoever interrupts a waiting loop wants it to end; the flag tells the loop so.
      Thread.currentThread().interrupt();
      return false;
    }
  }

  boolean isOver() {
    return over.getCount() == 0;
  }

  void end() {
    over.countDown();
  }
}
