package dev.cupwarden.app.loop;

/** How long something took, many times over, in room that does not grow with the times. */
final class Durations {
  private static final int STEP_NANOS = 10_000;

  /** Steps of 10 µs up to a second; the last holds all that is longer. */
  private final int[] counts = new int[100_000];

  private long count;
  private long mostNanos;

  void add(long nanos) {
    counts[(int) Math.min(counts.length - 1, nanos / STEP_NANOS)]++;
    count++;
    mostNanos = Math.max(mostNanos, nanos);
  }

  /** The least time that this part of all did not exceed, ms. */
  double ms(double part) {
    long reached = 0;
    for (int i = 0; i < counts.length; i++) {
      reached += counts[i];
      if (reached >= part * count) {
        return (i + 1) * STEP_NANOS / 1e6;
      }
    }
    return mostMs();
  }

  double mostMs() {
    return mostNanos / 1e6;
  }
}
