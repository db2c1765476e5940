package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.alerts.NearDry;
import dev.cupwarden.core.watering.CupLines;
import java.time.Duration;
import java.time.Instant;

/**
 * Whether a cup is near its dry line or past it. A cup whose scale has not been believed for a
 * while is judged by the depletion that one in twenty exceeds: what dries unseen is told of in
 * time, and in words of its own. What a single look shows of a cup that was just handled changes
 * nothing: the next looks tell.
 */
final class JudgeDryness {
  /** So close to its dry line a cup wants eyes: our choice. */
  private static final double NEAR_DRY = 0.05;

  /** A hand at a cup or a spike is over by then: our choice. */
  private static final Duration DOUBTED_LONG = Duration.ofMinutes(30);

  private JudgeDryness() {}

  static void judge(BenchDraft draft, CupDraft cup, Conditions to) {
    if (!cup.now.known() || cup.presence.away()) {
      return;
    }
    boolean doubted =
        cup.weight.distrustedSince() != null
            && Duration.between(cup.weight.distrustedSince(), draft.at).compareTo(DOUBTED_LONG)
                >= 0;
    if (cup.swapped() && !cup.weight.misplaced().on()) {
      // An older program kept not what it held itself; what stands there says nothing of it.
      to.when(AlertCode.NEAR_DRY, cup.name(), false, 0.0, 0.0);
      return;
    }
    // What was lifted off dries elsewhere: of that cup-away is told.
    boolean bound = doubted && !cup.now.lifted();
    double depletion = bound ? boundOf(cup) : cup.depletionSeen();
    CupLines lines = cup.frame.lines();
    double nearDry = lines.dry() - NEAR_DRY;
    double clear = Math.min(lines.due(), nearDry);
    Condition.Level level =
        soonClear(draft, cup, doubted)
            ? Condition.Level.BETWEEN
            : Condition.Level.above(depletion, nearDry, clear);
    if (level == Condition.Level.OFF) {
      to.add(AlertCode.NEAR_DRY, cup.name(), level, depletion, nearDry);
      return;
    }
    int severity = NearDry.severity(cup.watering.dryClock().past(draft.at).orElse(null));
    boolean watered = cup.refill() != null && cup.refill().orderedMl() > 0.0;
    Condition condition =
        new Condition(AlertCode.NEAR_DRY, cup.name(), level, depletion, nearDry)
            .saying(whatToDo(cup, severity, !doubted, watered))
            .severe(severity);
    to.add(bound ? condition.byBound() : condition);
  }

  /**
   * Whether the next looks will tell what its scale shows now: a spike, a hand, another cup in its
   * place, or the last of the one that stood there. One who looks but now and then waits for none.
   */
  private static boolean soonClear(BenchDraft draft, CupDraft cup, boolean doubted) {
    Instant lookedBefore = draft.before.at();
    if (doubted
        || lookedBefore == null
        || Duration.between(lookedBefore, draft.at).compareTo(DOUBTED_LONG) > 0) {
      return false;
    }
    return !cup.now.trusted()
        || cup.weight.estimate().inDoubt()
        || cup.weight.misplaced().justBack(draft.at);
  }

  private static String whatToDo(CupDraft cup, int severity, boolean weighed, boolean watered) {
    return cup.weight.misplaced().on()
        ? NearDry.inAnothersPlace(severity, cup.weight.misplaced().partner())
        : NearDry.whatToDo(severity, weighed, watered);
  }

  /** Whether a cup that is reckoned may be near its dry line. */
  static boolean nearDry(CupDraft cup) {
    return cup.now.known() && boundOf(cup) > cup.frame.lines().dry() - NEAR_DRY;
  }

  private static double boundOf(CupDraft cup) {
    return cup.depletionSeen() + NearDry.ONE_IN_TWENTY_SD * cup.weightSd();
  }
}
