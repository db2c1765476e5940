package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.estimate.OwnWater;
import dev.cupwarden.core.estimate.SwapDetector;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.state.CupState;
import java.util.ArrayList;
import java.util.List;

/**
 * Cups that changed places get nothing until they stand in their own again, or a person clears
 * them. What each holds is reckoned meanwhile, since its scale shows another.
 *
 * <p>They are back once both scales showed a hand, within half an hour of one another, and then
 * twice what their own cups should weigh. Two cups may weigh the same by drying alone; that is no
 * return. Where the other is off the bench or in its own place again, the one is judged by itself.
 */
final class WatchSwapped {
  /** A forecast proves a cup within so many of its standard deviations. */
  private static final double FITS_SDS = 2.0;

  /** Or within this part of its available water, whatever its doubt. */
  private static final double FITS_PART = 0.02;

  /** A forecast in greater doubt would prove any weight: our choice, part of available water. */
  private static final double MOST_PART = 0.10;

  private WatchSwapped() {}

  /** Whether two cups changed places just now. */
  static void find(BenchDraft draft) {
    List<SwapDetector.Step> news = new ArrayList<>();
    for (CupDraft cup : draft.cups.values()) {
      news.addAll(SwapDetector.steps(cup.name(), cup.events));
    }
    SwapDetector.Found found = SwapDetector.look(draft.steps, news, draft.at);
    draft.steps = found.recent();
    for (SwapDetector.Swap swap : found.swaps()) {
      CupDraft one = draft.cups.get(swap.one().cup());
      CupDraft other = draft.cups.get(swap.other().cup());
      if (one == null || other == null) {
        continue;
      }
      if (knownToNobody(one) && knownToNobody(other)) {
        one.standsInItsOwnPlace(draft.at);
        other.standsInItsOwnPlace(draft.at);
        continue;
      }
      if (wayBack(one, other, draft) || wayBack(other, one, draft)) {
        continue;
      }
      double apartG = Math.abs(swap.one().beforeG() - swap.other().beforeG());
      latch(draft, swap.one(), one, other, apartG);
      latch(draft, swap.other(), other, one, apartG);
    }
  }

  /** Of one that a person has cleared by now, too. */
  private static boolean wayBack(CupDraft cup, CupDraft other, BenchDraft draft) {
    return cup.weight.misplaced().inPlaceOf(other.name())
        || cup.weight.misplaced().justBackFrom(other.name(), draft.at);
  }

  /** Latched by a program that did not keep with whom; the opposite exchange ends it. */
  private static boolean knownToNobody(CupDraft cup) {
    return cup.swapped() && !cup.weight.misplaced().on();
  }

  private static void latch(
      BenchDraft draft, SwapDetector.Step step, CupDraft cup, CupDraft other, double apartG) {
    if (cup.weight.misplaced().on()) {
      return;
    }
    if (cup.latch == null) {
      cup.latch = new Latch(AlertCode.CUPS_SWAPPED, draft.at, apartG, 0.0);
    }
    cup.standsInPlaceOf(other.name(), step.at(), step.beforeG(), draft.at);
  }

  /** Whether they are back. */
  static void look(BenchDraft draft) {
    List<CupDraft> astray = new ArrayList<>();
    for (CupDraft cup : draft.cups.values()) {
      if (cup.weight.misplaced().on()) {
        astray.add(cup);
        if (handled(draft, cup)) {
          cup.weight = cup.weight.with(cup.weight.misplaced().stepped(draft.at));
        }
      }
    }
    for (CupDraft cup : astray) {
      if (!Double.isNaN(cup.readG)) {
        cup.weight =
            cup.weight.with(cup.weight.misplaced().looked(mayBeBack(draft, cup) && fits(cup)));
      }
    }
    List<CupDraft> back = new ArrayList<>();
    for (CupDraft cup : astray) {
      if (isBack(draft, cup)) {
        back.add(cup);
      }
    }
    for (CupDraft cup : back) {
      cup.standsInItsOwnPlace(draft.at);
      cup.seeNow(draft.at);
      cup.weight = cup.weight.judged(cup.now.trusted(), draft.at);
    }
  }

  /** Lifted, or changed by what drying does not explain; not on the tick of the exchange itself. */
  private static boolean handled(BenchDraft draft, CupDraft cup) {
    CupState kept = draft.before.cups().get(cup.name());
    if (kept == null || !kept.weight().misplaced().on()) {
      return false;
    }
    for (WeightEvent event : cup.events) {
      boolean step =
          event instanceof WeightEvent.Lifted
              || event instanceof WeightEvent.Returned
              || event instanceof WeightEvent.HandWatering
              || event instanceof WeightEvent.Exchanged;
      if (step) {
        return true;
      }
    }
    return false;
  }

  /** The cup that stands in its place, or stood; null: that one can no longer be asked. */
  private static CupDraft partner(BenchDraft draft, CupDraft cup) {
    CupDraft partner = draft.cups.get(cup.weight.misplaced().partner());
    boolean there = partner != null && !partner.presence.away() && partner.weight.misplaced().on();
    return there ? partner : null;
  }

  private static boolean mayBeBack(BenchDraft draft, CupDraft cup) {
    CupDraft partner = partner(draft, cup);
    return partner == null
        ? cup.weight.misplaced().handled()
        : cup.weight.misplaced().handledWith(partner.weight.misplaced());
  }

  /** Whether its scale shows what it should weigh itself. */
  private static boolean fits(CupDraft cup) {
    OwnWater own = cup.weight.reckoning().water();
    if (own == null
        || cup.presence.away()
        || !cup.weight.estimate().settled()
        || cup.now.lifted()) {
      return false;
    }
    double sdG = Math.hypot(own.sdG(), cup.weight.estimate().readingSdG());
    double withinG =
        Math.max(
            FITS_PART * cup.availableMl(), Math.min(FITS_SDS * sdG, MOST_PART * cup.availableMl()));
    return Math.abs(cup.weight.estimate().readingG() - own.massG()) <= withinG;
  }

  private static boolean isBack(BenchDraft draft, CupDraft cup) {
    if (!cup.weight.misplaced().fitsWell()) {
      return false;
    }
    CupDraft partner = partner(draft, cup);
    return partner == null || (partner.weight.misplaced().fitsWell() && !crosswise(cup, partner));
  }

  /** Whether each shows rather what the other should weigh: handled, and put back as they were. */
  private static boolean crosswise(CupDraft one, CupDraft other) {
    double oneG = one.weight.reckoning().water().massG();
    double otherG = other.weight.reckoning().water().massG();
    double ownG = missG(one, oneG) + missG(other, otherG);
    double crossG = missG(one, otherG) + missG(other, oneG);
    return crossG < ownG && Math.abs(oneG - otherG) >= SwapDetector.LEAST_DIFFERENCE_G / 2.0;
  }

  private static double missG(CupDraft cup, double massG) {
    return Math.abs(cup.weight.estimate().readingG() - massG);
  }
}
