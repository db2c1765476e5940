package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.watering.Cause;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** Water that reaches no cup: out of the waste valve, or into a person's jug. */
final class PastCups {
  private PastCups() {}

  /** One pass of plain water to waste; false where there is no such way, or nothing to give. */
  static boolean rinse(BenchDraft draft, Case.BenchFacts facts, List<AllowedPass> passes) {
    Optional<String> drain = draft.bench.hose().drain();
    double ml = draft.bench.watering().passMl();
    Supply supply = draft.supply();
    if (drain.isEmpty() || !supply.hasPlain() || supply.plainMl() < ml) {
      return false;
    }
    Limits.Allowance allowance = judge(draft, Case.CupFacts.ofNoCup(), Cause.RINSE, ml, facts);
    if (!allowance.water()) {
      return false;
    }
    Hose.Flow flow = draft.hose.would(ml, 0.0, null, 0.0);
    TankDraw draw = new TankDraw(ml, 0.0, flow.strength());
    put(draft, Limits.allow(drain.get(), Cause.RINSE, allowance, supply, draw), supply, passes);
    return true;
  }

  /** What a person ordered into a jug, as far as one pass goes. */
  static void prime(BenchDraft draft, Case.BenchFacts facts, List<AllowedPass> passes) {
    HoseState.Priming order = draft.hose.priming;
    if (order == null) {
      return;
    }
    CupDraft cup = draft.cups.get(order.cup());
    TankState tank = draft.tanks.get(order.tank());
    if (cup == null || !(cup.presence.away() || cup.now.lifted())) {
      end(draft, "cup: \"" + order.cup() + "\" stands on the bench: lift it off, jug in its place");
      return;
    }
    double ml = Math.min(order.leftMl(), draft.bench.watering().passMl());
    if (tank == null || tank.leftMl() < ml) {
      end(draft, "tank: \"" + order.tank() + "\" does not hold so much");
      return;
    }
    Case.CupFacts jug = PutOutPasses.cupFacts(draft, cup, Case.HoseFacts.CLEAR);
    Limits.Allowance allowance = judge(draft, jug, Cause.PRIME, ml, facts);
    if (!allowance.water()) {
      end(draft, Sentences.joined(allowance.holding()));
      return;
    }
    Supply supply =
        tank.plain()
            ? new Supply(order.tank(), tank.leftMl(), null, null, 0.0, 0.0)
            : new Supply(null, 0.0, order.tank(), tank.feed(), tank.leftMl(), tank.strength());
    double plainMl = tank.plain() ? ml : 0.0;
    Hose.Flow flow = draft.hose.would(plainMl, ml - plainMl, supply.feed(), supply.feedStrength());
    TankDraw draw = new TankDraw(plainMl, ml - plainMl, flow.strength());
    put(draft, Limits.allow(order.cup(), Cause.PRIME, allowance, supply, draw), supply, passes);
    draft.hose.priming =
        new HoseState.Priming(
            order.orderId(), order.cup(), order.tank(), order.leftMl() - ml, order.givenMl() + ml);
    if (draft.hose.priming.leftMl() < 0.05) {
      end(draft, null);
    }
  }

  private static Limits.Allowance judge(
      BenchDraft draft, Case.CupFacts cup, Cause cause, double ml, Case.BenchFacts facts) {
    Case.Proposal proposal = new Case.Proposal(cause, ml, ml, Set.of(), false);
    return Limits.judge(new Case(draft.at, proposal, cup, facts));
  }

  private static void put(
      BenchDraft draft, AllowedPass pass, Supply supply, List<AllowedPass> passes) {
    draft.hose.push(pass, supply.feed(), supply.feedStrength());
    draft.draw(pass);
    passes.add(pass);
  }

  /** Nothing given: refused; something: done. */
  static void end(BenchDraft draft, String why) {
    HoseState.Priming order = draft.hose.priming;
    draft.hose.priming = null;
    draft.receipts.removeIf(receipt -> order.orderId().equals(receipt.id()));
    if (order.givenMl() <= 0.0) {
      draft.receipts.add(Receipt.refused(order.orderId(), why));
      return;
    }
    String given = String.format(Locale.ROOT, "%.1f mL given", order.givenMl());
    draft.receipts.add(
        new Receipt(
            order.orderId(),
            "done",
            why == null ? given : "ended early: " + why + ", " + given,
            List.of()));
  }
}
