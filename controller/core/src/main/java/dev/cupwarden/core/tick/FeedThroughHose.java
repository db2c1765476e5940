package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.limits.HoseLimit;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.setup.RootStage;
import java.util.List;

/**
 * How much of a pass comes from the feed tank where a hose is shared: what goes in now leaves with
 * this pass in part and with the next for the rest. So as much goes in as brings this cup to the
 * strength meant, the next one no further, and can still be pushed out of the hose by what the cups
 * that may be fed have room for.
 */
final class FeedThroughHose {
  /** Of the room that is reckoned with for clearing the hose; limits may leave less of it. */
  private static final double ROOM_PART = 0.8;

  /** A refill of which the last third is plain still reaches a strength below this: our choice. */
  private static final double MADE_UP_BELOW = 0.7;

  private final BenchDraft draft;
  private final Case.BenchFacts facts;

  private final Supply supply;

  private FeedThroughHose(BenchDraft draft, Case.BenchFacts facts, Supply supply) {
    this.draft = draft;
    this.facts = facts;
    this.supply = supply;
  }

  static FeedThroughHose of(BenchDraft draft, Case.BenchFacts facts, Supply supply) {
    return new FeedThroughHose(draft, facts, supply);
  }

  /**
   * What a pass takes from the tanks; its strength is that of what leaves the drip end.
   *
   * @param meant label strength meant
   * @param most label strength that may leave the drip end
   * @param later who comes after it in this round, in order
   */
  TankDraw draw(Wish wish, double ml, double meant, double most, List<Wish> later) {
    HoseDraft hose = draft.hose;
    double tenths = Math.floor(ml * 10.0 + 1e-9);
    if (!supply.hasPlain() || supply.plainMl() < ml) {
      TankDraw whole = supply.draw(ml, meant, most);
      double strength =
          hose.would(0.0, whole.feedMl(), supply.feed(), supply.feedStrength()).strength();
      return whole.totalMl() > 0.0 && strength <= most + 1e-9
          ? new TankDraw(0.0, whole.feedMl(), strength)
          : TankDraw.NOTHING;
    }
    double feedTenths = 0.0;
    if (meant > 0.0 && most > 0.0 && supply.feed() != null && !hose.closing) {
      double mostTenths = Math.floor(Math.min(tenths, supply.feedMl() * 10.0));
      feedTenths = most(new Ask(wish, tenths, meant, most, later), mostTenths);
    }
    double plainMl = (tenths - feedTenths) / 10.0;
    double feedMl = feedTenths / 10.0;
    Hose.Flow flow = hose.would(plainMl, feedMl, supply.feed(), supply.feedStrength());
    return new TankDraw(plainMl, feedMl, flow.strength());
  }

  private record Ask(Wish wish, double tenths, double meant, double most, List<Wish> later) {}

  /** The most feed that suits, in tenths of a millilitre; all that is asked grows with it. */
  private double most(Ask ask, double mostTenths) {
    double owedMl = byHand(ask.wish()) ? 0.0 : SharedHose.owedMl(draft, ask.wish().cup());
    double ml = ask.tenths() / 10.0;
    double nowMl = Math.min(ask.most() * ml, Math.max(0.0, ask.meant() * ml + owedMl));
    double withoutMl = draft.hose.would(ml, 0.0, null, 0.0).labelMl();
    Next next = next(ask, owedMl);
    double clearingMl = clearingMl(ask);
    double largestMl = largestMl(ask);
    double low = 0.0;
    double high = mostTenths;
    while (low < high) {
      double middle = Math.ceil((low + high) / 2.0);
      Hose.Flow flow =
          draft.hose.would(ml - middle / 10.0, middle / 10.0, supply.feed(), supply.feedStrength());
      boolean suits =
          flow.labelMl() <= Math.max(nowMl, withoutMl) + 1e-9
              && flow.labelMl() <= ask.most() * ml + 1e-9
              && flow.after().push(Hose.Slug.plain(next.ml())).labelMl() <= next.labelMl()
              && pushable(flow.after(), largestMl)
              && clears(flow.after(), clearingMl);
      low = suits ? middle : low;
      high = suits ? high : middle - 1.0;
    }
    return low;
  }

  /**
   * The largest pass of plain water that a cup which may be fed can take after this one, mL; 0
   * where none is needed or there is none.
   */
  private double largestMl(Ask ask) {
    if (drains()) {
      return 0.0;
    }
    double mostMl = 0.0;
    for (CupDraft cup : draft.cups.values()) {
      boolean own = cup == ask.wish().cup();
      double roomMl =
          own ? cup.roomMl() - ask.tenths() / 10.0 : HoseRound.roomMl(draft, cup, facts);
      if (cup.setup.stage().takesFeed()) {
        mostMl = Math.max(mostMl, Math.min(roomMl, HoseRound.passMl(draft, cup)));
      }
    }
    return mostMl < Limits.LEAST_PASS_ML ? 0.0 : mostMl;
  }

  /**
   * Whether that pass pushes it out without going beyond the ceiling: what is too strong for every
   * cup would stay where it is, and hold all of them.
   */
  private boolean pushable(Hose after, double ml) {
    double most = draft.bench.feeding().ceiling();
    return ml == 0.0 || after.push(Hose.Slug.plain(ml)).labelMl() <= most * ml + 1e-9;
  }

  /**
   * Whoever gets what is left in the hose.
   *
   * @param labelMl what it may bring, mL at label strength
   */
  private record Next(double ml, double labelMl) {}

  private Next next(Ask ask, double owedMl) {
    CupDraft cup = ask.wish().cup();
    for (Wish other : ask.later()) {
      if (other.allowance().water()
          && SharedHose.most(draft, other.wanted(), other.allowance()) > 0.0) {
        return of(other.cup(), other.allowance().ml(), SharedHose.owedMl(draft, other.cup()));
      }
    }
    double leftMl = cup.roomMl() - ask.tenths() / 10.0;
    CupDraft other = owedMost(cup, canStayDirty(cup, ask.meant(), owedMl));
    if (leftMl < Limits.LEAST_PASS_ML && other != null) {
      return of(other, HoseRound.passMl(draft, other), SharedHose.owedMl(draft, other));
    }
    if (leftMl < Limits.LEAST_PASS_ML && anyUnfed() && !drains()) {
      return new Next(HoseRound.passMl(draft, cup), 0.0);
    }
    // What leaves with this pass is not yet known; what was old and leaves anyhow is.
    double oldMl = draft.hose.would(ask.tenths() / 10.0, 0.0, null, 0.0).labelMl();
    double thenMl = owedMl + ask.meant() * ask.tenths() / 10.0 - oldMl;
    return of(
        cup,
        Math.min(HoseRound.passMl(draft, cup), Math.max(Limits.LEAST_PASS_ML, leftMl)),
        thenMl);
  }

  private Next of(CupDraft cup, double ml, double owedMl) {
    double meant = StrengthMeant.of(draft, cup);
    double mostMl = draft.bench.feeding().ceiling() * ml;
    return new Next(ml, Math.max(0.0, Math.min(mostMl, meant * ml + owedMl)));
  }

  /** Whether a cup may end its refill with feed in the hose: else it would never get what it is. */
  private boolean canStayDirty(CupDraft cup, double meant, double owedMl) {
    double refillMl = (cup.frame.lines().due() - cup.frame.lines().refill()) * cup.availableMl();
    return meant > MADE_UP_BELOW * supply.feedStrength() || owedMl > meant * refillMl / 2.0;
  }

  /**
   * @param idle whether a cup counts that takes no water now
   */
  private CupDraft owedMost(CupDraft but, boolean idle) {
    CupDraft most = null;
    for (CupDraft cup : draft.cups.values()) {
      boolean fed =
          cup != but
              && cup.setup.stage().takesFeed()
              && (idle || HoseTurns.soaks(draft, cup, true))
              && HoseRound.roomMl(draft, cup, facts) > 0.0;
      if (fed && (most == null || SharedHose.owedMl(draft, cup) > SharedHose.owedMl(draft, most))) {
        most = cup;
      }
    }
    return most;
  }

  private static boolean byHand(Wish wish) {
    return wish.wanted().cause().byHand();
  }

  /** Plain water that cups which may be fed can take after this pass, mL; infinite: no need. */
  private double clearingMl(Ask ask) {
    if (!anyUnfed() || drains()) {
      return Double.POSITIVE_INFINITY;
    }
    double sumMl = Math.max(0.0, ask.wish().cup().roomMl() - ask.tenths() / 10.0);
    for (CupDraft cup : draft.cups.values()) {
      boolean other = cup != ask.wish().cup() && cup.setup.stage().takesFeed();
      sumMl += other ? HoseRound.roomMl(draft, cup, facts) : 0.0;
    }
    return ROOM_PART * sumMl;
  }

  private boolean anyUnfed() {
    return draft.cups.values().stream().anyMatch(FeedThroughHose::mustStayClear);
  }

  private boolean drains() {
    return draft.bench.hose().drain().isPresent();
  }

  private static boolean mustStayClear(CupDraft cup) {
    RootStage stage = cup.setup.stage();
    return !stage.takesFeed();
  }

  /** Whether so much plain water makes the hose fit for every cup that may not be fed. */
  private boolean clears(Hose after, double clearingMl) {
    if (Double.isInfinite(clearingMl)) {
      return true;
    }
    Hose cleared = after.push(Hose.Slug.plain(clearingMl)).after();
    for (CupDraft cup : draft.cups.values()) {
      if (mustStayClear(cup)) {
        double mgPerL =
            draft.hose.mostNMgPerL(cleared.push(Hose.Slug.plain(HoseRound.passMl(draft, cup))));
        if (mgPerL > HoseLimit.MOST_N_MG_PER_L) {
          return false;
        }
      }
    }
    return true;
  }
}
