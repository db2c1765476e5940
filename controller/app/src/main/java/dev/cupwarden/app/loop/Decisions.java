package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.Happening;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Decision;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;

/**
 * Puts down what was decided of each cup when the decision or its reasons change, and now and then
 * in between, so that any past moment can be explained. Numbers that only creep are no change.
 */
final class Decisions {
  /** A winter of a cup then takes about a thousand lines, and no curve of them has wide gaps. */
  static final Duration AT_LEAST_EVERY = Duration.ofHours(3);

  private record Last(Instant at, CupActivity state, List<String> codes) {
    boolean stillSays(Instant now, Decision decision) {
      return now.isBefore(at.plus(AT_LEAST_EVERY))
          && state == decision.state()
          && codes.equals(decision.codes());
    }
  }

  private final Map<String, Last> last = new HashMap<>();
  private final Map<String, Last> untold = new HashMap<>();

  /** What to put down in this tick; asked again, it says the same until {@link #told}. */
  List<Happening> untold(Instant at, SortedMap<String, Decision> decisions) {
    untold.clear();
    last.keySet().retainAll(decisions.keySet());
    List<Happening> changed = new ArrayList<>();
    decisions.forEach(
        (cup, decision) -> {
          Last before = last.get(cup);
          if (before == null || !before.stillSays(at, decision)) {
            untold.put(cup, new Last(at, decision.state(), decision.codes()));
            changed.add(Happening.of(at, cup, decision));
          }
        });
    return changed;
  }

  /** The journal has them. */
  void told() {
    last.putAll(untold);
    untold.clear();
  }
}
