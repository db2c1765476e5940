package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.state.DoneActs;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.state.Weighing;
import java.util.ArrayList;
import java.util.List;

/** Takes back what a person told by mistake, as if it had not been told; says what holds again. */
final class Forget {
  private Forget() {}

  static Receipt carryOut(BenchDraft draft, Order.Forget order) throws OrderRefused {
    if (dropWaiting(draft, order)) {
      return Receipt.done(order.id(), "order " + order.order() + " waits no more; nothing changed");
    }
    List<DoneActs.Act> acts = draft.done.of(order.order(), draft.at);
    if (acts.isEmpty()) {
      throw new OrderRefused(
          "order: \""
              + order.order()
              + "\" is no drained, watered or filled of the last day that can be taken back");
    }
    for (DoneActs.Act act : acts) {
      refuseBuiltOn(draft, act);
    }
    List<String> again = new ArrayList<>();
    for (DoneActs.Act act : acts) {
      again.add(takeBack(draft, act));
    }
    draft.done = draft.done.without(acts);
    return Receipt.done(order.id(), String.join("; ", again));
  }

  /** Whether it was a drained that no weight had answered yet. */
  private static boolean dropWaiting(BenchDraft draft, Order.Forget order) {
    for (CupDraft cup : draft.cups.values()) {
      Weighing.Asked asked = cup.weight.weighing().asked();
      if (asked != null && asked.orderId().equals(order.order())) {
        WeighDrained.drop(draft, cup, "taken back by order " + order.id());
        return true;
      }
    }
    return false;
  }

  private static void refuseBuiltOn(BenchDraft draft, DoneActs.Act act) throws OrderRefused {
    boolean commutes = act.water() != null;
    String later = commutes ? null : draft.done.toldAnew(act);
    if (later != null) {
      throw new OrderRefused(
          String.format(
              "order: \"%s\" was told anew by order \"%s\": take that one back first",
              act.of(), later));
    }
    if (act.fill() == null) {
      draft.cup(act.of());
    } else if (!draft.tanks.containsKey(act.of())) {
      throw new OrderRefused("order: the tank \"" + act.of() + "\" is no longer on this bench");
    }
  }

  private static String takeBack(BenchDraft draft, DoneActs.Act act) throws OrderRefused {
    if (act.fill() != null) {
      return unfill(draft, act);
    }
    CupDraft cup = draft.cup(act.of());
    return act.water() == null ? unlearn(draft, cup, act) : unwater(draft, cup, act.water());
  }

  private static String unlearn(BenchDraft draft, CupDraft cup, DoneActs.Act act) {
    Capacity again = act.weight().before();
    cup.learnCapacity(again, draft.at);
    cup.watering = cup.watering.driedFrom(Math.min(act.weight().driedFrom(), cup.depletion()));
    return Sentences.capacityAgain(cup.name(), cup.weights.capacityG(), again.by().word());
  }

  /** Ledger and salts forget it; if it was never seen on the scale, nothing is on its way. */
  private static String unwater(BenchDraft draft, CupDraft cup, DoneActs.Water water) {
    Given told = water.given();
    SaltBalance salts =
        cup.doses.salts().minus(told.ml(), water.ecMsPerCm(), water.waterEcMsPerCm());
    cup.doses = cup.doses.minus(told, salts, water.lastPassAt());
    cup.account = cup.account.given(-told.ml(), true);
    cup.weight = cup.weight.with(cup.weight.estimate().withoutAwaited(told.ml()));
    if (cup.weight.reckoning().on() && !told.at().isBefore(cup.weight.reckoning().since())) {
      cup.weight = cup.weight.with(cup.weight.reckoning().without(told.ml()));
      cup.seeNow(draft.at);
    }
    return Sentences.notWatered(cup.name(), told.ml(), told.strength());
  }

  private static String unfill(BenchDraft draft, DoneActs.Act act) {
    DoneActs.Fill fill = act.fill();
    TankState told = draft.tanks.get(act.of());
    TankState again = told.unfilled(fill.before(), fill.ml(), act.at());
    draft.tanks.put(act.of(), again);
    double drawnMl = Math.max(0.0, fill.ml() - told.leftMl());
    return Sentences.tankAgain(
        act.of(), again.leftMl(), again.plain() ? null : again.feed(), again.strength(), drawnMl);
  }
}
