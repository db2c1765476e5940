package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
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
    /**
     * @param share of {@link #AT_LEAST_EVERY} by which the cup's turns come before the full ones,
     *     so that not all cups are put down in one tick
     */
    boolean stillSays(Instant now, double share, Decision decision) {
      return turn(at, share) == turn(now, share)
          && state == decision.state()
          && hasCodesOf(decision.reasons());
    }

    /** Compared one by one: at most ticks no cup has anything new to say. */
    private boolean hasCodesOf(List<CupStatus.Told> reasons) {
      boolean same = codes.size() == reasons.size();
      for (int i = 0; same && i < codes.size(); i++) {
        same = codes.get(i).equals(reasons.get(i).code());
      }
      return same;
    }
  }

  private static long turn(Instant at, double share) {
    long everyS = AT_LEAST_EVERY.toSeconds();
    return Math.floorDiv(at.getEpochSecond() + Math.round(share * everyS), everyS);
  }

  private final Map<String, Last> last = new HashMap<>();
  private final Map<String, Last> untold = new HashMap<>();

  /** What to put down in this tick; asked again, it says the same until {@link #told}. */
  List<JournalEvent> untold(Instant at, SortedMap<String, Decision> decisions) {
    untold.clear();
    last.keySet().retainAll(decisions.keySet());
    List<JournalEvent> changed = new ArrayList<>();
    int place = 0;
    for (Map.Entry<String, Decision> each : decisions.entrySet()) {
      String cup = each.getKey();
      Decision decision = each.getValue();
      double share = (double) place++ / decisions.size();
      Last before = last.get(cup);
      if (before == null || !before.stillSays(at, share, decision)) {
        untold.put(cup, new Last(at, decision.state(), decision.codes()));
        changed.add(JournalEvent.of(at, cup, decision));
      }
    }
    return changed;
  }

  /** The journal has them. */
  void told() {
    last.putAll(untold);
    untold.clear();
  }
}
