package dev.cupwarden.app.link;

import java.time.Duration;
import java.util.random.RandomGenerator;

/**
 * How long to wait before the next try: doubling, with jitter so that many benches do not march in
 * step.
 */
final class Backoff {
  private final Duration first;
  private final Duration most;
  private final RandomGenerator random;
  private int tries;

  Backoff(Duration first, Duration most, RandomGenerator random) {
    this.first = first;
    this.most = most;
    this.random = random;
  }

  /** Between half and all of the doubled time. */
  Duration next() {
    double ceilingMs = Math.min((double) most.toMillis(), first.toMillis() * Math.pow(2, tries));
    tries = Math.min(tries + 1, 30);
    return Duration.ofMillis((long) (ceilingMs * (0.5 + 0.5 * random.nextDouble())));
  }

  void reset() {
    tries = 0;
  }
}
