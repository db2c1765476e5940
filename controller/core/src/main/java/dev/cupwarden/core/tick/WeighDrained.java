package dev.cupwarden.core.tick;

import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.Rest;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.state.DoneActs;
import dev.cupwarden.core.state.Weighing;
import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * The one way in which a person teaches a cup's capacity: its weight at rest, soaked and drained.
 * The weight of the order's own line, if the cup is on it, at rest and not in doubt; else the first
 * such weight within half an hour.
 */
final class WeighDrained {
  /** A cup that drains at all has drained by then, three times over: our choice. */
  static final double BEYOND_WET_H = 6.0;

  /**
   * Where a mix lacks air even at capacity, its wet line is no heavier than that: then only what is
   * heavier than a weighing may be off says anything. Our choice.
   */
  private static final double SURELY_BEYOND = -0.02;

  /**
   * A weighing ends the doubt of a scale that drifts. Within this part of the available water it
   * shows what it did before, so the scale was right: our choice.
   */
  private static final double SAME_PART = 0.1;

  private final boolean daily;

  /**
   * @param daily whether a line is all that will be read of a cup for a day
   */
  WeighDrained(boolean daily) {
    this.daily = daily;
  }

  /** Keeps the order until a weight answers it; the newest word of a person counts. */
  static Receipt take(BenchDraft draft, Order.Drained order) throws OrderRefused {
    CupDraft cup = draft.cup(order.cup());
    if (!draft.drains(cup)) {
      throw new OrderRefused(Sentences.noHoles(cup.name(), "drained"));
    }
    drop(draft, cup, "said again by order " + order.id());
    Rest rest = Rest.since(cup.weight.lastReadG(), cup.weight.estimate().readAt());
    cup.weight =
        cup.weight.with(
            cup.weight
                .weighing()
                .asking(new Weighing.Asked(order.id(), draft.at, order.sure(), rest, false)));
    return Receipt.taken(order.id());
  }

  /** An order that can no longer be answered, or is taken back. */
  static void drop(BenchDraft draft, CupDraft cup, String why) {
    Weighing.Asked asked = cup.weight.weighing().asked();
    if (asked != null) {
      cup.weight = cup.weight.with(cup.weight.weighing().asking(null));
      answer(draft, Receipt.refused(asked.orderId(), why));
    }
  }

  /** After this moment's reading of the cup. */
  void look(BenchDraft draft, CupDraft cup) {
    cup.weight = cup.weight.with(cup.weight.weighing().known(draft.at));
    if (cup.weight.weighing().asked() != null) {
      judge(draft, cup, cup.weight.weighing().asked());
    }
    doubt(draft.at, cup);
  }

  private void judge(BenchDraft draft, CupDraft cup, Weighing.Asked asked) {
    if (Elapsed.minutes(asked.at(), draft.at) > Rest.WAIT_MIN) {
      cup.weight = cup.weight.with(cup.weight.weighing().asking(null));
      answer(draft, Receipt.refused(asked.orderId(), Sentences.stillDripping(asked.read())));
      return;
    }
    if (Double.isNaN(cup.readG)) {
      return;
    }
    double rateGPerH = cup.rateGPerH();
    double sdG = cup.weight.estimate().readingSdG();
    Rest rest = asked.rest();
    if (believed(cup) && (alone(draft) || rest.at(draft.at, cup.readG, rateGPerH, sdG))) {
      cup.weight = cup.weight.with(cup.weight.weighing().asking(null));
      answer(draft, learn(draft, cup, asked));
    } else {
      Rest next = rest.next(draft.at, cup.readG, rateGPerH, sdG);
      cup.weight = cup.weight.with(cup.weight.weighing().asking(asked.next(next)));
    }
  }

  /** No second reading comes in the time that a person waits. */
  private boolean alone(BenchDraft draft) {
    Instant before = draft.before.at();
    return daily || before == null || Elapsed.minutes(before, draft.at) > Rest.WAIT_MIN;
  }

  private static boolean believed(CupDraft cup) {
    boolean drifts = cup.now.drifts() && !cup.presence.away();
    return (itself(cup) || drifts) && !cup.weight.estimate().inDoubt();
  }

  /** Whether what its scale shows is the cup, as far as anybody knows. */
  private static boolean itself(CupDraft cup) {
    return cup.now.trusted() && !cup.presence.away() && !cup.swapped();
  }

  private static Receipt learn(BenchDraft draft, CupDraft cup, Weighing.Asked asked) {
    Capacity before = cup.weight.estimate().capacity();
    double foundG = cup.weight.estimate().readingG();
    double believedG = cup.weights.capacityG();
    double leastG = before.leastG(cup.frame.weights());
    var told = Receipt.Capacity.of(foundG, believedG, before.by().word());
    if (!(foundG >= leastG)) {
      String why = Sentences.noDrainedWeight(cup.name(), foundG, leastG);
      return Receipt.refused(asked.orderId(), why);
    }
    // On a scale that falls by itself a light weight is the scale's.
    double heldG = cup.account.drift().told() ? believedG : foundG;
    double farG = before.farG(cup.frame.weights(), heldG);
    if (!asked.sure() && Math.abs(foundG - believedG) > farG) {
      return Receipt.notSure(asked.orderId(), Sentences.farOff(cup.name(), told, farG), told);
    }
    DoneActs.Weight weight = new DoneActs.Weight(before, cup.watering.driedFrom());
    draft.done = draft.done.drained(asked.orderId(), draft.at, cup.name(), weight);
    if (cup.account.drift().told()) {
      boolean same = Math.abs(foundG - believedG) < SAME_PART * cup.availableMl();
      cup.account = cup.account.proved(same);
    }
    cup.learnCapacity(before.weighed(draft.at, foundG), draft.at);
    cup.account = cup.account.filled(draft.at, cup.roomMl());
    cup.weight = cup.weight.with(cup.weight.weighing().beyond(null));
    cup.witness = cup.witness.soaked();
    return Receipt.learned(asked.orderId(), Sentences.learned(cup.name(), told), told);
  }

  /**
   * A learned capacity is doubted again: a cup that rests beyond its wet line for hours holds more
   * than it could, or stands in water. Drainage ends long before; any rise or handling begins the
   * time anew.
   */
  private static void doubt(Instant at, CupDraft cup) {
    Capacity capacity = cup.weight.estimate().capacity();
    if (!capacity.learned() || capacity.doubted() || !itself(cup)) {
      return;
    }
    Instant since = cup.weight.weighing().beyondSince();
    if (cup.depletion() >= Math.min(cup.frame.lines().wet(), SURELY_BEYOND)) {
      cup.weight =
          cup.weight.with(
              since == null ? cup.weight.weighing() : cup.weight.weighing().beyond(null));
      return;
    }
    boolean watered =
        cup.doses.lastPassAt() != null && since != null && cup.doses.lastPassAt().isAfter(since);
    if (since == null || watered || !cup.events.isEmpty()) {
      cup.weight = cup.weight.with(cup.weight.weighing().beyond(at));
    } else if (Elapsed.hours(since, at) >= BEYOND_WET_H) {
      cup.learnCapacity(capacity.doubted(at), at);
    }
  }

  /** In place of what was told of that order at this moment. */
  private static void answer(BenchDraft draft, Receipt receipt) {
    draft.receipts.removeIf(told -> receipt.id().equals(told.id()));
    draft.receipts.add(receipt);
  }
}
