package dev.cupwarden.core.tick;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderReader;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.season.DayForetold;
import dev.cupwarden.core.season.Foretold;
import dev.cupwarden.core.setup.BenchSafety;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.core.state.DoneActs;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** What a person asked, done to the bench or refused with a sentence. */
final class TakeOrders {
  /** A hold that outlasts a season is a slip of the pen. */
  private static final Duration LONGEST_HOLD = Duration.ofDays(120);

  /** So many hose volumes clear it: a twelfth of the old content is left. */
  private static final double MOST_HOSES = 3.0;

  /** A tank is never filled quite to the printed size. */
  private static final double OVERFILL = 1.1;

  /**
   * In volumes of a cup's mix. More is a slip of the pen, such as a litre for a decilitre, which
   * the ledger would keep for weeks and the day's volume for a day; who soaks a cup until it drains
   * pours less than two. Our choice.
   */
  private static final double MOST_VOLUMES_BY_HAND = 2.0;

  private final SetUpCups setUpCups;

  TakeOrders(CupFrames frames) {
    this.setUpCups = new SetUpCups(frames);
  }

  /**
   * @param changes of the bench file, by order: what became of them before this
   */
  void take(BenchDraft draft, Map<String, Receipt> changes) {
    for (JsonNode written : draft.seen.orders()) {
      String id = OrderReader.idOf(written);
      try {
        if (id != null && draft.knowsOrder(id)) {
          throw new OrderRefused("an order with this id was given before");
        }
        if (id != null && changes.containsKey(id)) {
          draft.rememberOrder(id);
          draft.receipts.add(changes.get(id));
          continue;
        }
        Order order = OrderReader.read(written);
        draft.rememberOrder(id);
        refuseStale(draft.at, OrderReader.validity(written));
        draft.receipts.add(carryOut(draft, order));
      } catch (OrderRefused refused) {
        draft.receipts.add(Receipt.refused(id, refused.getMessage()));
      }
    }
  }

  static void refuseStale(Instant at, Order.Validity validity) throws OrderRefused {
    Optional<Instant> expires = validity.expires();
    if (expires.isPresent() && !at.isBefore(expires.get())) {
      throw new OrderRefused("the order expired at " + expires.get());
    }
    if (validity.tooLong(at)) {
      throw new OrderRefused(validity.tooLongWords());
    }
    if (validity.fromTheFuture(at)) {
      throw new OrderRefused(
          "the order was issued in the future, at " + validity.issued().orElseThrow());
    }
  }

  private Receipt carryOut(BenchDraft draft, Order order) throws OrderRefused {
    if (order instanceof Order.ToEach many) {
      return ManyCups.carryOut(draft, many, this::carryOut);
    } else if (order instanceof Order.SetHold hold) {
      return hold(draft, hold);
    } else if (order instanceof Order.Release release) {
      return release(draft, release);
    } else if (order instanceof Order.Filled filled) {
      return filled(draft, filled);
    } else if (order instanceof Order.Weather weather) {
      return weather(draft, weather);
    } else if (order instanceof Order.Clear clear) {
      return clear(draft, clear);
    } else if (order instanceof Order.HandDose dose) {
      return dose(draft, dose);
    } else if (order instanceof Order.Flush flush) {
      if (!draft.drains(draft.cup(flush.cup()))) {
        throw new OrderRefused(Sentences.noHoles(flush.cup(), "flush"));
      }
      refuseOverTray(draft, draft.cup(flush.cup()), flush.ml());
      Refill refill = Refill.byHand(Cause.FLUSH, draft.at, flush.ml(), 0.0, Set.of(), flush.id());
      return begin(draft, draft.cup(flush.cup()), refill);
    } else if (order instanceof Order.Watered watered) {
      return watered(draft, watered);
    } else if (order instanceof Order.Drained drained) {
      return WeighDrained.take(draft, drained);
    } else if (order instanceof Order.Forget forget) {
      return Forget.carryOut(draft, forget);
    } else if (order instanceof Order.Later later) {
      return PutOffAlerts.putOff(draft, later);
    } else if (order instanceof Order.Change) {
      throw new OrderRefused("this bench was read from no file, and nothing of it can be changed");
    } else if (order instanceof Order.Prime prime) {
      return prime(draft, prime);
    } else if (order instanceof Order.Retire retire) {
      WeighDrained.drop(draft, draft.cup(retire.cup()), "the cup was taken out");
      draft.done = draft.done.withoutCup(retire.cup());
      draft.cups.remove(retire.cup());
      return Receipt.done(retire.id());
    }
    return setUpCups.carryOut(draft, order);
  }

  private static Receipt hold(BenchDraft draft, Order.SetHold order) throws OrderRefused {
    Hold hold = order.hold();
    if (!hold.holdsAt(draft.at)) {
      throw new OrderRefused("until: " + hold.until() + " is not later than now, " + draft.at);
    }
    if (hold.until().isAfter(draft.at.plus(LONGEST_HOLD))) {
      throw new OrderRefused(
          "until: a hold lasts at most " + LONGEST_HOLD.toDays() + " days, not to " + hold.until());
    }
    if (order.cup().isPresent()) {
      draft.cup(order.cup().get()).hold = hold;
    } else {
      draft.hold = hold;
    }
    draft.newHolds.add(order);
    return Receipt.done(order.id());
  }

  /** Who may be dry before a hold ends is known only once this moment's weights were read. */
  void addDryCupsToHoldReceipts(BenchDraft draft) {
    for (Order.SetHold order : draft.newHolds) {
      if (order.hold().feedOnly()) {
        continue;
      }
      List<String> dry = new ArrayList<>();
      for (CupDraft cup : draft.cups.values()) {
        boolean held = order.cup().isEmpty() || order.cup().get().equals(cup.name());
        if (held && cup.mayBeDryBefore(order.hold().until(), draft)) {
          dry.add(cup.name());
        }
      }
      draft.receipts.replaceAll(one -> order.id().equals(one.id()) ? one.alsoDry(dry) : one);
    }
  }

  private static Receipt release(BenchDraft draft, Order.Release order) throws OrderRefused {
    if (order.cup().isPresent()) {
      draft.cup(order.cup().get()).hold = null;
    } else {
      draft.hold = null;
      draft.cups.values().forEach(cup -> cup.hold = null);
    }
    return Receipt.done(order.id());
  }

  private static Receipt filled(BenchDraft draft, Order.Filled order) throws OrderRefused {
    Tank tank = draft.bench.tanks().get(order.tank());
    if (tank == null) {
      throw new OrderRefused(
          "tank: \""
              + order.tank()
              + "\" is not a tank of this bench; known: "
              + BenchDraft.names(draft.bench.tanks().keySet()));
    }
    if (order.ml() > tank.sizeMl() * OVERFILL) {
      throw new OrderRefused(
          "ml: the tank holds " + tank.sizeMl() + " mL, not " + order.ml() + " mL");
    }
    TankState known = draft.tanks.get(order.tank());
    String feed = order.feed().orElse(known.feed());
    double strength = order.strength().orElse(known.strength());
    if (order.feed().isPresent() && !draft.bench.feeds().containsKey(feed)) {
      throw new OrderRefused(
          "feed: \""
              + feed
              + "\" is not a feed of this bench; known: "
              + BenchDraft.names(draft.bench.feeds().keySet()));
    }
    if (strength > 0.0 && feed == null) {
      throw new OrderRefused("feed: a strength of " + strength + " needs the name of a feed");
    }
    draft.done =
        draft.done.filled(order.id(), draft.at, order.tank(), new DoneActs.Fill(known, order.ml()));
    draft.tanks.put(
        order.tank(),
        new TankState(
            strength > 0.0 ? feed : null, strength, order.ml(), draft.at, known.readAt()));
    return Receipt.done(order.id());
  }

  private static Receipt weather(BenchDraft draft, Order.Weather order) throws OrderRefused {
    LocalDate today = draft.today();
    LocalDate day = order.day().orElse(today);
    if (day.isBefore(today)) {
      throw new OrderRefused("day: " + day + " is over on this bench, where it is " + today);
    }
    if (day.isAfter(today.plusDays(Foretold.MOST_DAYS_AHEAD))) {
      throw new OrderRefused(
          "day: expected one until "
              + today.plusDays(Foretold.MOST_DAYS_AHEAD)
              + ", which is as far as a forecast goes, not "
              + day);
    }
    DayForetold told =
        new DayForetold(day, order.leastC(), order.mostC(), order.wind().orElse(null));
    draft.air = draft.air.with(draft.air.foretold().plus(told));
    return Receipt.done(order.id());
  }

  private static Receipt clear(BenchDraft draft, Order.Clear order) throws OrderRefused {
    for (CupDraft cup : draft.cupsOf(order.cup())) {
      cup.putBack(draft.at);
      cup.latch = null;
      cup.witness = cup.witness.cleared();
      if (cup.account.drift().told()) {
        cup.account = cup.account.proved(true);
      }
    }
    if (order.cup().isEmpty()) {
      WatchPump.clear(draft);
    }
    return Receipt.done(order.id());
  }

  private static Receipt dose(BenchDraft draft, Order.HandDose order) throws OrderRefused {
    double ceiling = draft.bench.feeding().ceiling();
    if (order.strength() > ceiling) {
      throw new OrderRefused(
          "strength: at most " + ceiling + " on this bench, not " + order.strength());
    }
    if (order.strength() > 0.0 && draft.supply().feedStrength() < order.strength()) {
      throw new OrderRefused(
          "strength: the feed tank holds "
              + draft.supply().feedStrength()
              + ", which cannot make "
              + order.strength());
    }
    Refill refill =
        Refill.byHand(
            Cause.ORDER, draft.at, order.ml(), order.strength(), order.lifts(), order.id());
    return begin(draft, draft.cup(order.cup()), refill);
  }

  /** What would run through must fit into the tray: a person empties it first. */
  private static void refuseOverTray(BenchDraft draft, CupDraft cup, double ml)
      throws OrderRefused {
    double roomMl = cup.now.known() ? cup.weights.capacityG() - cup.massG() : 0.0;
    double throughMl = ml - Math.max(0.0, roomMl);
    double heldMl = draft.pump.trayMl();
    if (throughMl > 0.0 && heldMl + throughMl > draft.bench.trayMl()) {
      throw new OrderRefused(Sentences.trayHasNoRoom(throughMl, heldMl, draft.bench.trayMl()));
    }
  }

  /** A person's water takes the place of the program's own; what was given stays given. */
  private static Receipt begin(BenchDraft draft, CupDraft cup, Refill refill) throws OrderRefused {
    WatchOnly.refusePump(draft);
    refuseWithoutValve(draft, cup);
    if (cup.refill() != null && cup.refill().cause().byHand()) {
      throw new OrderRefused(
          "order " + cup.refill().orderId() + " for this cup is still under way");
    }
    if (cup.refill() != null) {
      cup.endRefill(draft.at);
    }
    cup.watering = cup.watering.with(refill);
    return Receipt.taken(refill.orderId());
  }

  private static void refuseWithoutValve(BenchDraft draft, CupDraft cup) throws OrderRefused {
    if (!draft.bench.reaches(cup.setup)) {
      throw new OrderRefused(BenchSafety.noValve(cup.name()));
    }
  }

  private static Receipt watered(BenchDraft draft, Order.Watered order) throws OrderRefused {
    CupDraft cup = draft.cup(order.cup());
    double mostMl = MOST_VOLUMES_BY_HAND * cup.frame.water().volumeMl();
    if (order.ml() > mostMl) {
      throw new OrderRefused(
          String.format(
              Locale.ROOT,
              "ml: at most %.0f mL at once into %s, whose mix has %.0f mL, not %.0f mL",
              mostMl,
              order.cup(),
              cup.frame.water().volumeMl(),
              order.ml()));
    }
    String feed = order.strength() > 0.0 ? draft.feedByHand() : null;
    double ecMsPerCm =
        SaltBalance.ecMsPerCm(
            draft.bench.waterEcMsPerCm(),
            feed == null ? null : draft.bench.feeds().get(feed),
            order.strength());
    double waterEcMsPerCm = draft.bench.waterEcMsPerCm();
    Given given = new Given(draft.at, order.ml(), order.strength(), feed, cup.roomMl(), true);
    DoneActs.Water water =
        new DoneActs.Water(given, ecMsPerCm, waterEcMsPerCm, cup.doses.lastPassAt());
    draft.done = draft.done.watered(order.id(), draft.at, cup.name(), water);
    cup.give(given, ecMsPerCm, waterEcMsPerCm, draft.ledgerSpan());
    cup.weight =
        cup.weight.with(cup.weight.reckoning().watered(order.ml(), cup.weights.capacityG()));
    cup.witness = cup.witness.soaked();
    cup.seeNow(draft.at);
    return Receipt.done(order.id());
  }

  /** Whether the cup is off its place is looked at with this moment's weights. */
  private static Receipt prime(BenchDraft draft, Order.Prime order) throws OrderRefused {
    WatchOnly.refusePump(draft);
    refuseWithoutValve(draft, draft.cup(order.cup()));
    double mostMl = MOST_HOSES * draft.bench.hose().volumeMl();
    if (order.ml() > mostMl) {
      throw new OrderRefused(
          String.format(
              Locale.ROOT,
              "ml: at most three hose volumes, %.1f mL, not %.1f mL",
              mostMl,
              order.ml()));
    }
    String tank = order.tank().isPresent() ? order.tank().get() : draft.supply().plainTank();
    if (tank == null || !draft.tanks.containsKey(tank)) {
      throw new OrderRefused(
          "tank: "
              + (tank == null ? "none of plain water" : "\"" + tank + "\" is not one of this bench")
              + "; known: "
              + BenchDraft.names(draft.tanks.keySet()));
    }
    if (draft.hose.priming != null) {
      throw new OrderRefused("order " + draft.hose.priming.orderId() + " is still under way");
    }
    draft.hose.priming = new HoseState.Priming(order.id(), order.cup(), tank, order.ml(), 0.0);
    return Receipt.taken(order.id());
  }
}
