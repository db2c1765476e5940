package dev.cupwarden.core;

import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.Rising;
import dev.cupwarden.core.estimate.CupReading;
import dev.cupwarden.core.estimate.EstimateStep;
import dev.cupwarden.core.estimate.Estimator;
import dev.cupwarden.core.estimate.SwapDetector;
import dev.cupwarden.core.estimate.WeightEvent;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** What each cup holds, how fast it dries and whether to trust its scale. */
final class LookAtCups {
  /** A loss is logged over gaps up to this; over longer ones nobody saw it. */
  private static final double LONGEST_GAP_H = 2.0;

  private final Estimator estimator;

  LookAtCups(Estimator estimator) {
    this.estimator = estimator;
  }

  void look(BenchDraft draft) {
    double vpdKpa = draft.vpdKpa();
    int moved = 0;
    for (CupDraft cup : draft.cups.values()) {
      cup.readG = reading(draft, cup);
      moved += moved(cup) ? 1 : 0;
    }
    for (CupDraft cup : draft.cups.values()) {
      look(draft, cup, vpdKpa, moved);
    }
    lookForSwaps(draft);
  }

  /** Swapped cups get nothing until they stand in their own places, or a person clears them. */
  private static void lookForSwaps(BenchDraft draft) {
    List<SwapDetector.Step> news = new ArrayList<>();
    for (CupDraft cup : draft.cups.values()) {
      news.addAll(SwapDetector.steps(cup.name(), cup.events));
    }
    SwapDetector.Found found = SwapDetector.look(draft.steps, news, draft.at);
    draft.steps = found.recent();
    for (SwapDetector.Swap swap : found.swaps()) {
      CupDraft one = draft.cups.get(swap.one());
      CupDraft other = draft.cups.get(swap.other());
      if (one == null || other == null) {
        continue;
      }
      boolean back = swapped(one) && swapped(other);
      double apartG = Math.abs(one.now.massG() - other.now.massG());
      Latch latch = back ? null : new Latch("cups-swapped", draft.at, apartG, 0.0);
      one.latch = back || one.latch == null ? latch : one.latch;
      other.latch = back || other.latch == null ? latch : other.latch;
    }
  }

  private static boolean swapped(CupDraft cup) {
    return cup.latch != null && cup.latch.code().equals("cups-swapped");
  }

  /** Whether its scale shows another weight than at its last reading. */
  private static boolean moved(CupDraft cup) {
    return !Double.isNaN(cup.readG) && cup.readG != cup.lastReadG;
  }

  private void look(BenchDraft draft, CupDraft cup, double vpdKpa, int moved) {
    Instant at = draft.at;
    if (cup.stageSince == null) {
      cup.stageSince = at;
    }
    boolean neighboursMoved = moved - (moved(cup) ? 1 : 0) > 0;
    EstimateStep step =
        estimator.step(
            cup.estimate,
            cup.frame.weights(),
            new CupReading(at, cup.readG, cup.unlookedMl, vpdKpa, draft.airC(), neighboursMoved));
    cup.estimate = cup.drainedTold ? step.state().drained(at) : step.state();
    cup.lastReadG = Double.isNaN(cup.readG) ? cup.lastReadG : cup.readG;
    cup.events = step.events();
    cup.unlookedMl = 0.0;
    cup.seeNow(at);
    if (cup.hold != null && !cup.hold.holdsAt(at)) {
      cup.hold = null;
    }
    if (!cup.now.trusted()) {
      cup.distrustedSince = cup.distrustedSince == null ? at : cup.distrustedSince;
      return;
    }
    cup.distrustedSince = null;
    cup.wet = cup.wet.look(at, cup.depletion(), cup.frame.lines());
    cup.driedFrom = Math.min(cup.driedFrom, cup.depletion());
    logUse(draft, cup);
    learn(draft, cup);
  }

  /** A probe speaks of the water in the mix; its cup weighs that and what is dry of it. */
  private static double reading(BenchDraft draft, CupDraft cup) {
    Double readG = draft.seen.massG().get(cup.name());
    if (readG != null) {
      return readG;
    }
    Double theta = draft.seen.theta().get(cup.name());
    return theta == null
        ? Double.NaN
        : cup.frame.water().dryGrossG() + theta * cup.frame.water().volumeMl();
  }

  private static void logUse(BenchDraft draft, CupDraft cup) {
    if (draft.before.at() == null || !cup.now.rateKnown()) {
      return;
    }
    double hours = Duration.between(draft.before.at(), draft.at).toMillis() / 3_600_000.0;
    if (hours <= LONGEST_GAP_H) {
      cup.use = cup.use.plus(draft.at, cup.now.rateGPerH() * hours, hours);
    }
  }

  /** A rise seen only after a doubt may be the pass that went before it. */
  private static boolean own(CupDraft cup, double gainG) {
    return cup.onTrial != null
        && gainG <= DoseCheck.OVER_ABOVE * cup.onTrial.orderedMl() + Rising.thresholdG(0.0);
  }

  private static void learn(BenchDraft draft, CupDraft cup) {
    for (WeightEvent event : cup.events) {
      if (event instanceof WeightEvent.HandWatering watering && !own(cup, watering.gainG())) {
        double roomBeforeMl = cup.roomMl() + watering.gainG();
        cup.give(
            new Given(draft.at.minusNanos(1), watering.gainG(), 0.0, null, roomBeforeMl),
            draft.bench.waterEcMsPerCm(),
            draft.ledgerSpan());
        cup.unlookedMl = 0.0;
      }
    }
  }
}
