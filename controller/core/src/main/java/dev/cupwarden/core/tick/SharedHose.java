package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.limits.HoseLimit;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;

/** What the shared hose means for a cup: what it would bring, and what it has brought. */
final class SharedHose {
  /** Feed on dry roots is at most half of the label's: the grower's rule. */
  static final double MOST_ON_DRY_ROOTS = 0.5;

  private SharedHose() {}

  /**
   * Label strength that may leave the drip end over a cup; 0 for one that may not be fed.
   *
   * @param allowance what the limits left
   */
  static double most(BenchDraft draft, Refill wanted, Limits.Allowance allowance) {
    double most = Math.min(allowance.strength(), draft.bench.feeding().ceiling());
    if (!Double.isNaN(wanted.strengthAsked())) {
      most = Math.min(most, wanted.strengthAsked());
    }
    return wanted.cause() == Cause.FED_RESCUE ? Math.min(most, MOST_ON_DRY_ROOTS) : most;
  }

  /**
   * How a cup would find the hose.
   *
   * @param free what the limits leave of it without that of the hose
   */
  static Case.HoseFacts facts(
      BenchDraft draft, CupDraft cup, Refill wanted, Limits.Allowance free) {
    HoseDraft hose = draft.hose;
    if (!hose.shared() || wanted == null) {
      return Case.HoseFacts.CLEAR;
    }
    double ml = free.water() ? free.ml() : cup.leastMl(wanted.cause());
    Hose.Flow flow = hose.would(ml, 0.0, null, 0.0);
    double most = most(draft, wanted, free);
    double mayMgPerL = hose.nMgPerL(flow.feed(), most);
    boolean unfed = mayMgPerL <= HoseLimit.MOST_N_MG_PER_L;
    double carriesMgPerL = unfed ? hose.mostNMgPerL(flow) : hose.nMgPerL(flow);
    double mostMgPerL = Math.max(mayMgPerL, HoseLimit.MOST_N_MG_PER_L);
    boolean othersFirst = hose.plainFirst && most > 0.0 && mayWait(wanted.cause());
    return carriesMgPerL > mostMgPerL || othersFirst
        ? new Case.HoseFacts(carriesMgPerL, mostMgPerL, othersFirst, hose.waitedMin(cup.name()))
        : Case.HoseFacts.CLEAR;
  }

  /** A person waits for nobody's turn, and a dry cup not at all. */
  private static boolean mayWait(Cause cause) {
    return !cause.byHand() && !cause.rescue();
  }

  /** Notes who waits for the hose and nothing else, and since when. */
  static void note(BenchDraft draft, CupDraft cup) {
    Limits.Allowance allowance = cup.allowance;
    boolean waits =
        allowance.holding().size() == 1
            && allowance.holding().get(0).code().equals(LimitCode.HOSE.word());
    if (waits) {
      draft.hose.waiting.putIfAbsent(cup.name(), draft.at);
    } else {
      draft.hose.waiting.remove(cup.name());
    }
  }

  /** A cup got more than it should have: to be told. */
  static void tell(BenchDraft draft, CupDraft cup, double mostStrength, Hose.Flow flow) {
    double carriedMgPerL = draft.hose.nMgPerL(flow);
    double mayMgPerL = draft.hose.nMgPerL(flow.feed(), mostStrength);
    if (carriedMgPerL > Math.max(mayMgPerL, HoseLimit.MOST_N_MG_PER_L) + 1e-6) {
      draft.hose.told = new HoseState.Carried(draft.at, cup.name(), carriedMgPerL);
    }
  }

  /**
   * Keeps what a cup was meant to get and has not got, so that a later pass makes up for it; no
   * more than a full refill at the bench's ceiling would bring: our choice.
   *
   * @param meant label strength of its water as meant
   */
  static void owe(BenchDraft draft, CupDraft cup, double meant, AllowedPass pass) {
    if (!draft.hose.shared()) {
      return;
    }
    double refillMl = (cup.frame.lines().due() - cup.frame.lines().refill()) * cup.availableMl();
    double boundMl = draft.bench.feeding().ceiling() * refillMl;
    double owedMl =
        draft.hose.owedMl.getOrDefault(cup.name(), 0.0)
            + (meant - pass.strength()) * pass.totalMl();
    draft.hose.owedMl.put(cup.name(), Math.max(-boundMl, Math.min(boundMl, owedMl)));
  }

  /**
   * How much water it takes until a cup that gets one pass of plain water has made up for that and
   * for what it is owed, in parts of its available water; huge where its feed is meant as strong as
   * the tank's.
   */
  static double makesUpWithin(BenchDraft draft, CupDraft cup) {
    double meant = StrengthMeant.of(draft, cup, Double.NaN);
    double most = Math.min(draft.bench.feeding().ceiling(), draft.supply().feedStrength());
    double lacksMl = Math.max(0.0, owedMl(draft, cup) + meant * HoseRound.passMl(draft, cup));
    return lacksMl / Math.max(1e-6, most - meant) / cup.availableMl();
  }

  /** What a cup is still owed, mL at label strength. */
  static double owedMl(BenchDraft draft, CupDraft cup) {
    return draft.hose.owedMl.getOrDefault(cup.name(), 0.0);
  }
}
