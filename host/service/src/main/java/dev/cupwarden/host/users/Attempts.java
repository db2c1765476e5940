package dev.cupwarden.host.users;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Slows down guessing: after five tries in a row that came to nothing, by name or by place, each
 * further one makes the wait twice as long, up to a quarter of an hour.
 *
 * <p>A try is counted when it begins, so that many at once are as many tries. A person at a place
 * where that person has signed in before is counted by name and place together and waits a minute
 * at most: whoever guesses at that name elsewhere does not lock its owner out.
 */
final class Attempts {
  private static final int FREE = 5;
  private static final Duration FIRST_WAIT = Duration.ofSeconds(5);
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(15);
  private static final Duration LONGEST_WAIT_AT_HOME = Duration.ofMinutes(1);
  private static final int MOST_KEPT = 10_000;
  private static final int MOST_DOUBLINGS = 10;

  private final InstantSource clock;
  private final Map<String, Tries> tries =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Tries> eldest) {
          return size() > MOST_KEPT;
        }
      };

  private record Tries(int count, Instant last) {}

  /**
   * Who tries.
   *
   * @param place as {@link ClientNetwork} has it
   * @param atHome whether that person has signed in from there before
   */
  record Who(String name, String place, boolean atHome) {
    private List<String> counters() {
      return atHome
          ? List.of("home " + place + " " + name)
          : List.of("name " + name, "from " + place);
    }
  }

  Attempts(InstantSource clock) {
    this.clock = clock;
  }

  /** Counts a try, unless it has to wait; how long, if so. */
  synchronized Optional<Duration> begin(Who who) {
    Instant now = clock.instant();
    Duration longest = who.atHome() ? LONGEST_WAIT_AT_HOME : LONGEST_WAIT;
    Optional<Duration> wait =
        who.counters().stream()
            .map(tries::get)
            .filter(each -> each != null && each.count() >= FREE)
            .map(each -> Duration.between(now, each.last().plus(waitAfter(each, longest))))
            .filter(left -> !left.isNegative() && !left.isZero())
            .max(Duration::compareTo);
    if (wait.isEmpty()) {
      for (String counter : who.counters()) {
        tries.merge(
            counter, new Tries(1, now), (before, one) -> new Tries(before.count() + 1, now));
      }
    }
    return wait;
  }

  private static Duration waitAfter(Tries each, Duration longest) {
    Duration wait = FIRST_WAIT.multipliedBy(1L << Math.min(each.count() - FREE, MOST_DOUBLINGS));
    return wait.compareTo(longest) > 0 ? longest : wait;
  }

  /** It was the right password. */
  synchronized void succeeded(Who who) {
    who.counters().forEach(tries::remove);
  }

  /** It was not looked at after all. */
  synchronized void takenBack(Who who) {
    for (String counter : who.counters()) {
      tries.computeIfPresent(
          counter,
          (key, each) -> each.count() <= 1 ? null : new Tries(each.count() - 1, each.last()));
    }
  }
}
