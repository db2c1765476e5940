package dev.cupwarden.app.link;

import static org.junit.jupiter.api.Assertions.fail;

import java.time.Duration;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Waits for what must come, not for a time. */
public final class Waiting {
  private Waiting() {}

  /** Looks every 20 ms until it is so; fails when it is not so within the bound. */
  public static void until(String what, Duration atMost, Callable<Boolean> isSo)
      throws InterruptedException {
    long end = System.nanoTime() + atMost.toNanos();
    CountDownLatch never = new CountDownLatch(1);
    while (!called(isSo)) {
      if (System.nanoTime() > end) {
        fail("not within " + atMost + ": " + what);
      }
      never.await(20, TimeUnit.MILLISECONDS);
    }
  }

  private static boolean called(Callable<Boolean> isSo) {
    try {
      return isSo.call();
    } catch (Exception e) {
      throw new AssertionError(e);
    }
  }
}
