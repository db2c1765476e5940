package dev.cupwarden.core.tick;

import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.watering.BlindRation;
import dev.cupwarden.core.watering.BlindWatering;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.CupLines;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;
import java.util.Locale;
import java.util.Set;

/** Whether a cup wants water, why, and how much: what limits make of it is not asked here. */
final class ProposeWater {
  /** An estimate less sure than this in depletion is taken at half its word. */
  private static final double UNSURE_SD = 0.05;

  /** The refill under way, one that should begin, or null; ends what has reached its end. */
  Refill refill(BenchDraft draft, CupDraft cup, Case.WindowNow window) {
    if (cup.refill() != null && cup.refill().cause().rescue()) {
      // Plain water ran out or came back: the rest is another refill.
      boolean same = cup.refill().cause() == rescue(draft, cup);
      if (!same) {
        cup.endRefill(draft.at);
      }
    }
    if (cup.refill() != null) {
      if (cup.witness.learned() && cup.refill().halved()) {
        cup.watering = cup.watering.with(cup.refill().whole());
      }
      String end = end(draft, cup, window);
      if (end == null) {
        return cup.refill();
      }
      if (cup.refill().cause().byHand()) {
        String how = end + String.format(Locale.ROOT, "%.1f mL given", cup.refill().orderedMl());
        draft.receipts.add(ManyCups.over(draft, cup, "done", how));
      }
      cup.endRefill(draft.at);
    }
    return begin(draft, cup, window);
  }

  /** Why the refill is over, to be followed by what was given; null while it is not. */
  private static String end(BenchDraft draft, CupDraft cup, Case.WindowNow window) {
    Refill refill = cup.refill();
    double leastMl = cup.leastMl(refill.cause());
    if (refill.leftMl() < leastMl) {
      return "";
    }
    boolean toLine = refill.cause() != Cause.FLUSH && refill.cause() != Cause.BLIND;
    if (toLine && cup.roomMl() < leastMl) {
      return "the refill line is reached, ";
    }
    if (cup.full && toLine) {
      return "the cup is full, ";
    }
    Duration lasted = Duration.between(refill.startedAt(), draft.at);
    if (lasted.compareTo(Refill.LONGEST) > 0) {
      return "six hours are over, ";
    }
    // A rescue that began in the window is a whole refill; by night only a halved one goes on.
    boolean needsWindow =
        refill.cause() == Cause.DUE
            || refill.cause() == Cause.FORECAST
            || (refill.cause().rescue() && Double.isInfinite(refill.budgetMl()));
    return needsWindow && !window.open() && !window.openForReturned()
        ? "the window has closed, "
        : null;
  }

  private Refill begin(BenchDraft draft, CupDraft cup, Case.WindowNow window) {
    if (cup.blind()) {
      return beginBlind(draft, cup, window);
    }
    CupLines lines = cup.frame.lines();
    double depletion = cup.depletion();
    Cause cause = null;
    if (depletion > lines.dry()) {
      cause = rescue(draft, cup);
    } else if (depletion > lines.due()) {
      cause = Cause.DUE;
    } else if (cup.now.trusted()
        && (dryBeforeNextWindow(draft, cup, window) || HoseTurns.goesAlong(draft, cup))) {
      cause = Cause.FORECAST;
    }
    if (cause == null || cup.roomMl() < cup.leastMl(cause)) {
      return null;
    }
    boolean heldOtherwise =
        cause.rescue()
            && (!window.open()
                || cup.witness.soaking().sheds()
                || draft.rootsC(cup) < draft.bench.climate().coldC()
                || draft.pump.watch().leak().onRescue());
    boolean unsure =
        (!cup.witness.learned() && !cup.watering.halfGiven()) || cup.weightSd() > UNSURE_SD;
    Refill whole = starting(draft, cause, Double.POSITIVE_INFINITY);
    if (heldOtherwise) {
      return whole.within(cup.roomMl() / 2.0);
    }
    return unsure ? whole.halfUntilSeen(cup.roomMl() / 2.0) : whole;
  }

  /** Half of what its reckoned water is short of; an unrooted cup gets its rations. */
  private static Refill beginBlind(BenchDraft draft, CupDraft cup, Case.WindowNow window) {
    double ml;
    if (!cup.setup.stage().rooted()) {
      ml =
          BlindRation.ml(
              cup.weight.distrustedSince(),
              draft.at,
              cup.plant.use(),
              cup.setup.stage(),
              cup.doses.given());
    } else if (cup.wateredBlind(draft.at) && wantsBlind(draft, cup, window)) {
      ml = BlindWatering.PART * cup.roomMl();
    } else {
      return null;
    }
    return ml < cup.leastMl(Cause.BLIND) ? null : starting(draft, Cause.BLIND, ml);
  }

  private static boolean wantsBlind(BenchDraft draft, CupDraft cup, Case.WindowNow window) {
    double likelyDry = cup.depletion() + cup.weightSd();
    return likelyDry > cup.frame.lines().due() || dryBeforeNextWindow(draft, cup, window);
  }

  private static Refill starting(BenchDraft draft, Cause cause, double budgetMl) {
    return new Refill(
        cause,
        draft.at,
        budgetMl,
        Double.POSITIVE_INFINITY,
        0.0,
        Double.NaN,
        Set.of(),
        null,
        false);
  }

  /** Plain water; where none is to be had, feed for a cup that may have it. */
  private static Cause rescue(BenchDraft draft, CupDraft cup) {
    return draft.plainToBeHad() || !cup.setup.stage().takesFeed() ? Cause.RESCUE : Cause.FED_RESCUE;
  }

  /** Only a learned rate may bring a watering forward. */
  private static boolean dryBeforeNextWindow(
      BenchDraft draft, CupDraft cup, Case.WindowNow window) {
    return cup.now.rateKnown() && cup.mayBeDryBefore(window.opening(draft.at), draft);
  }
}
