package dev.cupwarden.core.longrun;

import java.io.IOException;
import java.time.Duration;
import java.util.SplittableRandom;

/**
 * Tries seed after seed on what must bear any input: as many as jqwik tries by default, or for
 * {@code -Dfuzz.minutes=M} if that is more than nothing. {@code -Dfuzz.from=N} begins at another
 * seed, {@code -Dfuzz.seed=N} plays one again, which the failure names.
 */
public final class Fuzz {
  private static final int TRIES = 1000;

  private Fuzz() {}

  /** One try. */
  public interface Try {
    /**
     * @param random from which all of the try follows
     */
    void on(SplittableRandom random) throws Exception;
  }

  /**
   * Tries it.
   *
   * @param what is tried, as a section's name goes on after "Fuzzing"
   * @param promise what held in every try
   * @throws AssertionError at the first seed that fails
   */
  public static void of(String what, String promise, Try each) throws IOException {
    Long only = Long.getLong("fuzz.seed");
    if (only != null) {
      once(what, only, each);
      return;
    }
    long first = Long.getLong("fuzz.from", 1);
    Duration time = Duration.ofSeconds(Math.round(60 * minutes()));
    long begun = System.nanoTime();
    long seed = first;
    for (; goesOn(seed - first, time, begun); seed++) {
      once(what, seed, each);
    }
    TestReport.put(
        "Fuzzing: " + what,
        Duration.ofNanos(System.nanoTime() - begun),
        "%,d tries, seeds %,d to %,d: %s".formatted(seed - first, first, seed - 1, promise));
  }

  private static double minutes() {
    return Double.parseDouble(System.getProperty("fuzz.minutes", "0"));
  }

  private static boolean goesOn(long tries, Duration time, long begun) {
    return time.isZero() ? tries < TRIES : System.nanoTime() - begun < time.toNanos();
  }

  private static void once(String what, long seed, Try each) {
    try {
      each.on(new SplittableRandom(seed));
    } catch (Exception | AssertionError | StackOverflowError failed) {
      throw new AssertionError(what + ": play again with -Dfuzz.seed=" + seed, failed);
    }
  }
}
