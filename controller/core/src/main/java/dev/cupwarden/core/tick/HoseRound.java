package dev.cupwarden.core.tick;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.util.Comparator;
import java.util.List;
import java.util.Set;

/** One round where cups share a hose: before one that must wait for it, it is cleared. */
final class HoseRound {
  private final PutOutPasses putOutPasses;
  private final BenchDraft draft;
  private final Case.WindowNow window;
  private final List<AllowedPass> passes;

  /**
   * @param passes of this round so far; more are added
   */
  HoseRound(
      PutOutPasses putOutPasses,
      BenchDraft draft,
      Case.WindowNow window,
      List<AllowedPass> passes) {
    this.putOutPasses = putOutPasses;
    this.draft = draft;
    this.window = window;
    this.passes = passes;
  }

  /** Puts out what these cups may have, in that order. */
  void put(List<Wish> wishes) {
    for (int i = 0; i < wishes.size(); i++) {
      Wish wish = wishes.get(i);
      if (!HoseTurns.mayBeFed(draft, wish)) {
        clearFor(wish);
      } else if (draft.hose.closing) {
        // Once it is clear, feed waits until the others had their water.
        draft.hose.plainFirst = wishes.stream().noneMatch(one -> HoseTurns.tooStrong(draft, one));
      }
      if (putOutPasses.fits(draft, passes)) {
        putOutPasses.putOut(draft, wish, window, passes, wishes.subList(i + 1, wishes.size()));
        SharedHose.note(draft, wish.cup());
      } else {
        putOutPasses.waitForNextTick(draft, wish, window, passes);
      }
    }
    draft
        .hose
        .waiting
        .keySet()
        .removeIf(name -> wishes.stream().noneMatch(wish -> wish.cup().name().equals(name)));
  }

  /**
   * Plain water to waste, or into cups that may be fed and have room, until this one may have its.
   */
  private void clearFor(Wish waiting) {
    if (!HoseTurns.tooStrong(draft, waiting)) {
      return;
    }
    Case.BenchFacts facts = putOutPasses.benchFacts(draft, window);
    boolean more = true;
    while (more && putOutPasses.fits(draft, passes) && HoseTurns.tooStrong(draft, waiting)) {
      more = PastCups.rinse(draft, facts, passes);
    }
    for (CupDraft cup : soonestMadeUp()) {
      boolean takes =
          cup.wanted == null
              && putOutPasses.fits(draft, passes)
              && HoseTurns.tooStrong(draft, waiting)
              && roomMl(draft, cup, facts) > 0.0;
      if (takes) {
        draft.hose.closing = true;
        cup.wanted = clearing(draft, cup);
        Limits.Allowance allowance = PutOutPasses.judge(draft, cup, cup.wanted, facts);
        double ml = HoseTurns.clearsWithMl(draft, waiting, allowance.ml());
        cup.wanted = cup.wanted.within(ml);
        Wish own = new Wish(cup, cup.wanted, allowance);
        putOutPasses.putOut(draft, own, window, passes, List.of());
      }
    }
  }

  private List<CupDraft> soonestMadeUp() {
    return draft.cups.values().stream()
        .filter(cup -> cup.setup.stage().takesFeed())
        .sorted(Comparator.comparingDouble(cup -> SharedHose.makesUpWithin(draft, cup)))
        .toList();
  }

  /** One pass of plain water for the hose's sake. */
  private static Refill clearing(BenchDraft draft, CupDraft cup) {
    double ml = Math.min(cup.roomMl(), draft.bench.watering().passMl());
    return new Refill(
        Cause.FORECAST,
        draft.at,
        ml,
        Double.POSITIVE_INFINITY,
        0.0,
        Double.NaN,
        Set.of(),
        null,
        false);
  }

  /** The usual pass of a cup. */
  static double passMl(BenchDraft draft, CupDraft cup) {
    double mostMl = Math.min(draft.bench.watering().passMl(), 0.1 * cup.capacityMl());
    return Math.max(Limits.LEAST_PASS_ML, mostMl * cup.witness.soaking().passPart());
  }

  /** How much a cup that may be fed could take now or when it has soaked; 0 where it may not. */
  static double roomMl(BenchDraft draft, CupDraft cup, Case.BenchFacts facts) {
    boolean takes = cup.setup.stage().takesFeed() && cup.roomMl() >= cup.leastMl(Cause.FORECAST);
    if (!takes) {
      return 0.0;
    }
    Refill refill = cup.refill() == null ? clearing(draft, cup) : cup.refill();
    boolean open =
        !Limits.forbids(PutOutPasses.proposed(draft, cup, refill, facts, Case.HoseFacts.CLEAR));
    boolean soaks = cup.refill() != null && cup.refill().orderedMl() > 0.0;
    if (cup.refill() == null) {
      // Then it has to dry back: one pass is all.
      return open ? Math.min(cup.roomMl(), passMl(draft, cup)) : 0.0;
    }
    return open || soaks ? cup.roomMl() : 0.0;
  }
}
