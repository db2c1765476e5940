package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.limits.HoseLimit;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.watering.CupLines;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * In which order cups share the hose: those that get plain water first, then those that get feed.
 * Once feed stands in it, plain water goes into those that may be fed until it is clear for the
 * others.
 */
final class HoseTurns {
  /** After so long somebody's waiting ends the feeding; the rest of two hours clears the hose. */
  private static final double CLOSES_AFTER_MIN = 45.0;

  /** What clears the hose goes so far below the limit, for a pump that is slower than it seems. */
  private static final double CLEARS_TO_PART = 0.8;

  /** How finely the volume of a clearing pass is sought, mL: our choice. */
  private static final double STEP_ML = 0.5;

  /** How much of its dry-back a fed cup may be short of when it goes along: our choice. */
  private static final double GOES_ALONG_PART = 0.2;

  private HoseTurns() {}

  /**
   * Whether a cup that may be fed, and will soon be due, is watered now that another is being fed:
   * each time that the hose is filled with feed and cleared again thins what fed cups get, so they
   * go together. Cups that may not be fed keep their lines; wet feet are what they rot from.
   */
  static boolean goesAlong(BenchDraft draft, CupDraft cup) {
    CupLines lines = cup.frame.lines();
    double soon = lines.due() - GOES_ALONG_PART * (lines.due() - lines.refill());
    if (!draft.hose.shared()
        || !cup.setup.stage().takesFeed()
        || cup.depletion() < soon
        || !draft.anyUnfed()) {
      return false;
    }
    for (CupDraft other : draft.cups.values()) {
      boolean underWay = other.refill() != null && other.refill().orderedMl() > 0.0;
      if (underWay && other != cup && other.setup.stage().takesFeed()) {
        return true;
      }
    }
    return false;
  }

  /** Whether a cup may have what stands in the hose, or more feed. */
  static boolean mayBeFed(BenchDraft draft, Wish wish) {
    return SharedHose.most(draft, wish.wanted(), wish.allowance()) > 0.0;
  }

  /**
   * The order of a round.
   *
   * @param turn who comes first among equals
   */
  static List<Wish> inOrder(BenchDraft draft, List<Wish> wishes, Comparator<Wish> turn) {
    boolean dirty = wishes.stream().anyMatch(wish -> tooStrong(draft, wish));
    boolean feeding = draft.cups.values().stream().anyMatch(cup -> soaks(draft, cup, true));
    draft.hose.closing =
        (dirty && !feeding) || wishes.stream().anyMatch(wish -> waitsLong(draft, wish));
    draft.hose.plainFirst =
        !dirty
            && (wishes.stream().anyMatch(wish -> !mayBeFed(draft, wish))
                || draft.cups.values().stream().anyMatch(cup -> soaks(draft, cup, false)));
    Comparator<Wish> among = turn;
    if (draft.hose.closing) {
      among =
          Comparator.comparingDouble(
                  (Wish wish) ->
                      mayBeFed(draft, wish) ? SharedHose.makesUpWithin(draft, wish.cup()) : 0.0)
              .thenComparing(turn);
    }
    List<Wish> ordered = new ArrayList<>(wishes);
    ordered.sort(
        Comparator.comparing((Wish wish) -> mayBeFed(draft, wish) != dirty).thenComparing(among));
    return ordered;
  }

  /** A rescue finds the hose as it is, but better after water that others can take. */
  static boolean tooStrong(BenchDraft draft, Wish wish) {
    if (mayBeFed(draft, wish)) {
      return false;
    }
    double mgPerL = draft.hose.mostNMgPerL(draft.hose.would(ml(wish), 0.0, null, 0.0));
    return mgPerL > HoseLimit.MOST_N_MG_PER_L;
  }

  /**
   * How much plain water makes the hose fit for a cup's next pass, mL: more would only thin what
   * cups that may be fed are given.
   *
   * @param mostMl where no smaller pass does it
   */
  static double clearsWithMl(BenchDraft draft, Wish waiting, double mostMl) {
    Hose.Slug next = Hose.Slug.plain(ml(waiting));
    for (double ml = Limits.LEAST_PASS_ML; ml < mostMl; ml += STEP_ML) {
      Hose cleared = draft.hose.would(ml, 0.0, null, 0.0).after();
      double mgPerL = draft.hose.mostNMgPerL(cleared.push(next));
      if (mgPerL <= CLEARS_TO_PART * HoseLimit.MOST_N_MG_PER_L) {
        return ml;
      }
    }
    return mostMl;
  }

  private static double ml(Wish wish) {
    return wish.allowance().ml() > 0.0
        ? wish.allowance().ml()
        : wish.cup().leastMl(wish.wanted().cause());
  }

  private static boolean waitsLong(BenchDraft draft, Wish wish) {
    return !mayBeFed(draft, wish) && draft.hose.waitedMin(wish.cup().name()) >= CLOSES_AFTER_MIN;
  }

  /** A refill, with feed or without, goes on when its last pass has soaked in. */
  static boolean soaks(BenchDraft draft, CupDraft cup, boolean fed) {
    if (cup.setup.stage().takesFeed() != fed
        || cup.wanted == null
        || cup.doses.lastPassAt() == null) {
      return false;
    }
    Duration soak = cup.witness.soaking().soak(draft.bench.watering().soak());
    Instant longest = cup.doses.lastPassAt().plus(soak.multipliedBy(2));
    return cup.wanted.orderedMl() > 0.0 && draft.at.isBefore(longest);
  }
}
