package dev.cupwarden.core.tick;

import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.CupKeys;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.watering.WaterAccount;
import java.time.Instant;
import java.util.List;

/** Orders that change what a cup is, or whether it is there. */
final class SetUpCups {
  private final CupFrames frames;

  SetUpCups(CupFrames frames) {
    this.frames = frames;
  }

  /** Carries out one of them: stage, repot, add, away, back, cover or uncover. */
  Receipt carryOut(BenchDraft draft, Order order) throws OrderRefused {
    if (order instanceof Order.Add add) {
      return add(draft, add);
    } else if (order instanceof Order.SeenStage seen) {
      CupDraft cup = draft.cup(seen.cup());
      // Seen again is not seen anew: the feed goes on rising from when it was first seen.
      boolean same = cup.setup.stage() == seen.stage();
      refit(cup, cup.setup.withStage(seen.stage()), draft.at);
      cup.plant =
          cup.plant.ofStageSince(same ? cup.plant.stageSince() : draft.at).lookedAt(draft.at);
    } else if (order instanceof Order.Repot repot) {
      repot(draft, repot);
    } else if (order instanceof Order.Away away) {
      CupDraft cup = draft.cup(away.cup());
      cup.presence = cup.presence.takenAway(draft.at);
    } else if (order instanceof Order.Back back) {
      CupDraft cup = draft.cup(back.cup());
      cup.presence = cup.presence.putBack(draft.at);
    } else if (order instanceof Order.Cover cover) {
      cover(draft, cover);
    } else {
      throw new IllegalStateException("no hand for " + order);
    }
    return Receipt.done(order.id());
  }

  private static void cover(BenchDraft draft, Order.Cover order) throws OrderRefused {
    for (CupDraft cup : draft.cupsOf(order.cup())) {
      cup.covered(order.covered(), draft.at, draft.bench.waterEcMsPerCm());
    }
  }

  private Receipt add(BenchDraft draft, Order.Add order) throws OrderRefused {
    if (draft.cups.containsKey(order.cup())) {
      throw new OrderRefused("cup: \"" + order.cup() + "\" is on this bench already");
    }
    if (draft.cups.size() >= Bench.MOST_CUPS) {
      throw new OrderRefused(
          "cup: there is no room for \"" + order.cup() + "\": " + Bench.CUPS_RULE);
    }
    try {
      List<Cup> others = draft.cups.values().stream().map(one -> one.setup).toList();
      Cup setup = CupKeys.fromOrder(order.keys(), draft.bench, others);
      CupDraft cup = new CupDraft(CupState.fresh(setup));
      refit(cup, setup, draft.at);
      draft.cups.put(order.cup(), cup);
      return Receipt.done(order.id());
    } catch (SetupException refused) {
      throw new OrderRefused(refused.getMessage());
    }
  }

  /** Gives the cup that setup, unless its lines would then be out of order. */
  private void refit(CupDraft cup, Cup setup, Instant at) throws OrderRefused {
    try {
      cup.frame = frames.of(setup);
    } catch (IllegalArgumentException unfit) {
      throw new OrderRefused(setup.name() + ": " + unfit.getMessage());
    }
    cup.setup = setup;
    cup.seeNow(at);
  }

  private void repot(BenchDraft draft, Order.Repot order) throws OrderRefused {
    CupDraft cup = draft.cup(order.cup());
    if (!draft.bench.vessels().containsKey(order.vessel())) {
      throw new OrderRefused(
          "vessel: \""
              + order.vessel()
              + "\" is not a vessel of this bench; known: "
              + BenchDraft.names(draft.bench.vessels().keySet()));
    }
    if (!draft.bench.mixes().containsKey(order.mix())) {
      throw new OrderRefused(
          "mix: \""
              + order.mix()
              + "\" is not a mix of this bench; known: "
              + BenchDraft.names(draft.bench.mixes().keySet()));
    }
    refit(cup, cup.setup.withVesselAndMix(order.vessel(), order.mix()), draft.at);
    WeighDrained.drop(draft, cup, "the cup was repotted");
    draft.done = draft.done.withoutCup(order.cup());
    cup.presence = cup.presence.with(cup.presence.cover().repotted());
    cup.plant = cup.plant.repotted();
    cup.weight = cup.weight.repotted();
    cup.watering = cup.watering.repotted();
    cup.account = WaterAccount.NONE;
    cup.doses = cup.doses.with(SaltBalance.wetted(cup.capacityMl(), draft.bench.waterEcMsPerCm()));
    cup.witness = cup.witness.repotted();
    cup.seeNow(draft.at);
  }
}
