package dev.cupwarden.host.users;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Slows down guessing: after five failures in a row, by name or by address, each further one makes
 * the wait twice as long, up to a quarter of an hour.
 */
final class Attempts {
  private static final int FREE = 5;
  private static final Duration FIRST_WAIT = Duration.ofSeconds(5);
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(15);
  private static final int MOST_KEPT = 10_000;
  private static final int MOST_DOUBLINGS = 10;

  private final InstantSource clock;
  private final Map<String, Failures> failures =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Failures> eldest) {
          return size() > MOST_KEPT;
        }
      };

  private record Failures(int count, Instant last) {}

  Attempts(InstantSource clock) {
    this.clock = clock;
  }

  /** How long to wait before the next try, if at all. */
  synchronized Optional<Duration> waitFor(String name, String from) {
    Instant now = clock.instant();
    return keys(name, from)
        .map(failures::get)
        .filter(each -> each != null && each.count() >= FREE)
        .map(each -> Duration.between(now, each.last().plus(waitAfter(each.count()))))
        .filter(wait -> !wait.isNegative() && !wait.isZero())
        .max(Duration::compareTo);
  }

  private static Duration waitAfter(int count) {
    Duration wait = FIRST_WAIT.multipliedBy(1L << Math.min(count - FREE, MOST_DOUBLINGS));
    return wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait;
  }

  synchronized void failed(String name, String from) {
    Instant now = clock.instant();
    keys(name, from)
        .forEach(
            key ->
                failures.merge(
                    key,
                    new Failures(1, now),
                    (before, one) -> new Failures(before.count() + 1, now)));
  }

  synchronized void succeeded(String name, String from) {
    keys(name, from).forEach(failures::remove);
  }

  private static Stream<String> keys(String name, String from) {
    return Stream.of("name " + name, "from " + from);
  }
}
