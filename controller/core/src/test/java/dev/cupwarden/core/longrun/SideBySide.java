package dev.cupwarden.core.longrun;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** The same work on several threads at once, until each has come to its end. */
public final class SideBySide {
  private SideBySide() {}

  /** Work that may fail. */
  public interface Work {
    void go() throws Exception;
  }

  /** On a thread for each core. */
  public static void onEveryCore(Work work) throws Exception {
    on(Runtime.getRuntime().availableProcessors(), work);
  }

  /**
   * On so many threads.
   *
   * @throws Exception what the first of them failed with; the others have come to their end
   */
  public static void on(int threads, Work work) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    try {
      List<Callable<Void>> all = new ArrayList<>();
      for (int i = 0; i < threads; i++) {
        all.add(
            () -> {
              work.go();
              return null;
            });
      }
      for (Future<Void> each : pool.invokeAll(all)) {
        each.get();
      }
    } catch (ExecutionException e) {
      if (e.getCause() instanceof Exception cause) {
        throw cause;
      }
      throw new AssertionError(e.getCause().getMessage(), e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }
}
