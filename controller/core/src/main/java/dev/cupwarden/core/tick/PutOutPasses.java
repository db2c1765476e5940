package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.feeding.FeedLedger;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.limits.TickVolumeLimit;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.OpenHours;
import dev.cupwarden.core.watering.Refill;
import dev.cupwarden.core.watering.VolumeBounds;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** Proposed passes through the limits, and out: one round over all cups that want water. */
final class PutOutPasses {
  /** A cup that was away may be watered so much later in the day. */
  private static final Duration LONGER_FOR_RETURNED = Duration.ofHours(2);

  /**
   * Whoever weighs once a day does it after work, or when there is time: no window is kept, and the
   * next weighing may come after a weekend, Friday evening to Monday evening, and some hours late
   * (our choice).
   */
  private static final Duration NEXT_WEIGHING = Duration.ofHours(76);

  /** Limits that a hand dose waits for rather than being refused by. */
  private static final Set<String> WAITED_FOR = LimitCode.waitedFor();

  private final OpenHours openHours;
  private final ProposeWater propose;
  private final boolean soakKeptByPerson;

  PutOutPasses(OpenHours openHours, boolean soakKeptByPerson) {
    this.openHours = openHours;
    this.propose = new ProposeWater();
    this.soakKeptByPerson = soakKeptByPerson;
  }

  /**
   * One round: at most one pass a cup, thirstiest of those that waited longest first, and no more
   * than the pump can give within a tick.
   */
  List<AllowedPass> round(BenchDraft draft) {
    Case.WindowNow window = window(draft.at);
    Case.BenchFacts facts = benchFacts(draft, window);
    List<AllowedPass> passes = new ArrayList<>();
    PastCups.prime(draft, facts, passes);
    List<Wish> wishes = new ArrayList<>();
    for (CupDraft cup : draft.cups.values()) {
      cup.wanted = propose.refill(draft, cup, window);
      cup.allowance = null;
      if (cup.wanted != null && mayBe(draft, cup, facts)) {
        wishes.add(new Wish(cup, cup.wanted, judge(draft, cup, cup.wanted, facts)));
      }
    }
    ManyCups.takeBack(draft, forbidden(draft, wishes));
    wishes.removeIf(wish -> wish.wanted().toMany() && wish.cup().refill() == null);
    if (facts.trial()) {
      wishes.removeIf(wish -> !WatchPump.canTry(wish.cup()));
      wishes.sort(driestButNot(draft.pump.watch().trial().cup()));
    } else if (draft.hose.shared()) {
      new HoseRound(this, draft, window, passes).put(HoseTurns.inOrder(draft, wishes, TURN));
      return passes;
    } else {
      wishes.sort(TURN);
    }
    for (Wish wish : wishes) {
      if (fits(draft, passes)) {
        putOut(draft, wish, window, passes, List.of());
      } else {
        waitForNextTick(draft, wish, window, passes);
      }
    }
    return passes;
  }

  /** Doses to several cups, none of them begun, of which a limit forbids one: by id, why by cup. */
  private static Map<String, SortedMap<String, String>> forbidden(
      BenchDraft draft, List<Wish> wishes) {
    Map<String, SortedMap<String, String>> forbidden = new TreeMap<>();
    for (Wish wish : wishes) {
      Refill refill = wish.wanted();
      if (refill.toMany() && refill.startedAt().equals(draft.at) && refill.orderedMl() == 0.0) {
        List<Reason> standing = standing(against(refill, wish.allowance()));
        if (!standing.isEmpty()) {
          forbidden
              .computeIfAbsent(refill.orderId(), id -> new TreeMap<>())
              .put(wish.cup().name(), wish.cup().name() + " " + Sentences.joined(standing));
        }
      }
    }
    return forbidden;
  }

  /** Whether the pump can give one more within this tick. */
  boolean fits(BenchDraft draft, List<AllowedPass> passes) {
    return !TickVolumeLimit.full(roundMl(passes), mostMl(draft), draft.bench.watering().passMl());
  }

  /** The pump has no time left for this cup: its limits say so. */
  void waitForNextTick(
      BenchDraft draft, Wish wish, Case.WindowNow window, List<AllowedPass> passes) {
    wish.cup().allowance =
        judge(draft, wish.cup(), wish.wanted(), benchFacts(draft, window, passes));
  }

  private static double roundMl(List<AllowedPass> passes) {
    return passes.stream().mapToDouble(AllowedPass::totalMl).sum();
  }

  /** What the pump gives within a tick; no bound where a person waters. */
  private double mostMl(BenchDraft draft) {
    double tickS = Elapsed.seconds(draft.bench.tick());
    return soakKeptByPerson
        ? Double.POSITIVE_INFINITY
        : draft
            .bench
            .board()
            .map(board -> board.pump().mlPerS() * tickS)
            .orElse(Double.POSITIVE_INFINITY);
  }

  /** A dose by hand is answered with every reason; the program's own need not be. */
  private static boolean mayBe(BenchDraft draft, CupDraft cup, Case.BenchFacts facts) {
    return cup.wanted.cause().byHand()
        || !Limits.forbids(proposed(draft, cup, cup.wanted, facts, Case.HoseFacts.CLEAR));
  }

  /** What each cup would get of a person's dose, by the caps alone. */
  Map<String, NextPass> nextPasses(BenchDraft draft) {
    Case.BenchFacts facts = benchFacts(draft, window(draft.at));
    Map<String, NextPass> next = new HashMap<>();
    for (CupDraft cup : draft.cups.values()) {
      double leastMl = cup.leastMl(Cause.ORDER);
      Case dose =
          new Case(
              draft.at,
              new Case.Proposal(Cause.ORDER, Double.POSITIVE_INFINITY, leastMl, Set.of(), false),
              cupFacts(draft, cup, Case.HoseFacts.CLEAR),
              facts);
      next.put(cup.name(), new NextPass(cup.roomMl(), Limits.capMl(dose), leastMl));
    }
    return next;
  }

  /** Asks the limits of the cups that get no water, too: for whoever wants to be told. */
  void judgeTheRest(BenchDraft draft) {
    Case.BenchFacts facts = benchFacts(draft, window(draft.at));
    for (CupDraft cup : draft.cups.values()) {
      if (cup.allowance == null) {
        cup.allowance = judge(draft, cup, cup.wanted, facts);
      }
    }
  }

  /** Rescues first; then who waited longest for a pass; then the driest; then by name. */
  private static final Comparator<Wish> TURN =
      Comparator.comparing((Wish wish) -> wish.cup().depletion() <= wish.cup().frame.lines().dry())
          .thenComparing(
              wish ->
                  wish.cup().doses.lastPassAt() == null
                      ? Instant.MIN
                      : wish.cup().doses.lastPassAt())
          .thenComparing(wish -> -wish.cup().depletion())
          .thenComparing(wish -> wish.cup().name());

  /** For a trial of the pump: the driest, but who was tried last comes last. */
  private static Comparator<Wish> driestButNot(String triedLast) {
    return Comparator.comparing((Wish wish) -> wish.cup().name().equals(triedLast))
        .thenComparing(wish -> -wish.cup().depletion())
        .thenComparing(wish -> wish.cup().name());
  }

  /**
   * @param later who comes after it in this round, in order
   */
  void putOut(
      BenchDraft draft,
      Wish wish,
      Case.WindowNow window,
      List<AllowedPass> passes,
      List<Wish> later) {
    CupDraft cup = wish.cup();
    // Cups before this one in the round may have emptied a tank.
    Limits.Allowance allowance =
        passes.isEmpty() && !draft.hose.shared()
            ? wish.allowance()
            : judge(draft, cup, wish.wanted(), benchFacts(draft, window, passes));
    cup.allowance = allowance;
    double wanted = StrengthMeant.of(draft, cup, wish.wanted());
    List<Reason> against = against(wish.wanted(), allowance);
    if (!against.isEmpty()) {
      refuseByHand(draft, cup, against);
      return;
    }
    Supply supply = draft.supply(wish.wanted().cause());
    // Where plain water has run out, a flush is not given with feed, nor a dose stronger than said.
    double most = SharedHose.most(draft, wish.wanted(), allowance);
    TankDraw draw =
        draft.hose.shared()
            ? FeedThroughHose.of(draft, benchFacts(draft, window), supply)
                .draw(wish, allowance.ml(), wanted, most, later)
            : supply.draw(allowance.ml(), wanted, most);
    if (draw.totalMl() <= 0.0 && !draft.hose.shared() && !wish.wanted().cause().byHand()) {
      double leastMl = cup.leastMl(wish.wanted().cause());
      draw = supply.drawLast(leastMl, allowance.ml(), wanted, most);
    }
    if (draw.totalMl() <= 0.0) {
      draft.unsuited = true;
      return;
    }
    AllowedPass pass = Limits.allow(cup.name(), wish.wanted().cause(), allowance, supply, draw);
    SharedHose.owe(draft, cup, Math.min(wanted, most), pass);
    count(draft, cup, wish.wanted(), pass, supply, most);
    passes.add(pass);
  }

  /** What forbids it as it is wanted; none where it may be. */
  private static List<Reason> against(Refill wanted, Limits.Allowance allowance) {
    boolean tooStrong =
        !Double.isNaN(wanted.strengthAsked())
            && wanted.strengthAsked() > allowance.strength() + 1e-9;
    return tooStrong ? feedReasons(allowance) : allowance.holding();
  }

  /** Of those, what a dose by hand does not wait for. */
  private static List<Reason> standing(List<Reason> reasons) {
    return reasons.stream().filter(reason -> !WAITED_FOR.contains(reason.code())).toList();
  }

  private static List<Reason> feedReasons(Limits.Allowance allowance) {
    return allowance.feedHolding().isEmpty()
        ? List.of(allowance.strengthBy())
        : allowance.feedHolding();
  }

  /** A hand dose that a limit forbids is refused at once, so that the person can do otherwise. */
  private static void refuseByHand(BenchDraft draft, CupDraft cup, List<Reason> reasons) {
    if (cup.refill() == null || !cup.refill().cause().byHand()) {
      return;
    }
    List<Reason> standing = standing(reasons);
    if (standing.isEmpty()) {
      return;
    }
    String id = cup.refill().orderId();
    String why = Sentences.joined(standing);
    if (cup.refill().orderedMl() > 0.0) {
      draft.receipts.add(ManyCups.over(draft, cup, "done", "ended early: " + why));
      cup.endRefill(draft.at);
    } else if (cup.refill().toMany()) {
      draft.receipts.add(ManyCups.over(draft, cup, "refused", why));
      cup.watering = cup.watering.withoutRefill();
    } else {
      cup.watering = cup.watering.withoutRefill();
      draft.receipts.removeIf(receipt -> id.equals(receipt.id()));
      draft.receipts.add(Receipt.refused(id, why));
    }
  }

  /** From here on the pass counts as given. */
  private static void count(
      BenchDraft draft, CupDraft cup, Refill wanted, AllowedPass pass, Supply supply, double most) {
    double roomMl = cup.roomMl();
    VolumeBounds.Bound usual =
        VolumeBounds.usual(draft.at, cup.doses.given(), cup.account, draft.pumpPart());
    if (pass.totalMl() > usual.leftMl() + 1e-9) {
      cup.account = cup.account.halfBegun(draft.at, VolumeBounds.HALF * roomMl);
    }
    double overMl = cup.massG() + pass.totalMl() - cup.weights.capacityG();
    draft.pump = draft.pump.ranThrough(Math.max(0.0, Math.min(pass.totalMl(), overMl)));
    if (!cup.reckoned()) {
      // A reckoned weight is no witness: a scale that comes back judges none but what it saw.
      PassOnTrial trial =
          new PassOnTrial(
              draft.at, 1, pass.totalMl(), cup.massG(), cup.rateGPerH(), cup.now.massSdG());
      boolean flush = wanted.cause() == Cause.FLUSH;
      cup.witness = cup.witness.tried(flush ? trial.ofFlush() : trial);
    }
    String feedName = pass.feedMl() > 0.0 ? supply.feed() : null;
    if (draft.hose.shared()) {
      Hose.Flow flow = draft.hose.push(pass, supply.feed(), supply.feedStrength());
      SharedHose.tell(draft, cup, most, flow);
      feedName = flow.feed();
    }
    Feed feed = feedName == null ? null : draft.bench.feeds().get(feedName);
    cup.give(
        new Given(draft.at, pass.totalMl(), pass.strength(), feedName, roomMl, false),
        SaltBalance.ecMsPerCm(draft.bench.waterEcMsPerCm(), feed, pass.strength()),
        draft.bench.waterEcMsPerCm(),
        draft.ledgerSpan());
    cup.weight =
        cup.weight.with(cup.weight.reckoning().pass(pass.totalMl(), cup.weights.capacityG()));
    cup.seeNow(draft.at);
    draft.draw(pass);
    WatchPump.gave(draft, cup.name(), pass.totalMl());
    cup.watering = cup.watering.with(wanted.plus(pass.totalMl()));
    cup.passes.add(pass);
  }

  static Limits.Allowance judge(
      BenchDraft draft, CupDraft cup, Refill wanted, Case.BenchFacts facts) {
    cup.fed =
        FeedLedger.fed(
            cup.doses.given(), draft.at, draft.interval(draft.supply().feed()), cup.availableMl());
    Limits.Allowance free = Limits.judge(proposed(draft, cup, wanted, facts, Case.HoseFacts.CLEAR));
    Case.HoseFacts hose = SharedHose.facts(draft, cup, wanted, free);
    return hose.equals(Case.HoseFacts.CLEAR)
        ? free
        : Limits.judge(proposed(draft, cup, wanted, facts, hose));
  }

  static Case proposed(
      BenchDraft draft, CupDraft cup, Refill wanted, Case.BenchFacts facts, Case.HoseFacts hose) {
    double leastMl = cup.leastMl(wanted == null ? null : wanted.cause());
    Case.Proposal proposal =
        wanted == null
            ? new Case.Proposal(null, leastMl, leastMl, Set.of(), false)
            : new Case.Proposal(
                wanted.cause(), wanted.leftMl(), leastMl, wanted.lifts(), wanted.orderedMl() > 0.0);
    return new Case(draft.at, proposal, cupFacts(draft, cup, hose), facts);
  }

  static Case.CupFacts cupFacts(BenchDraft draft, CupDraft cup, Case.HoseFacts hose) {
    return new Case.CupFacts(
        cup.setup.stage(),
        cup.frame.lines(),
        cup.now,
        cup.depletion(),
        cup.availableMl(),
        cup.capacityMl(),
        cup.roomMl(),
        cup.roomToWetMl(),
        cup.hold,
        cup.latch,
        cup.presence.away(),
        cup.presence.backAt(),
        cup.presence.cover().toldAt(),
        cup.watering.wet(),
        cup.watering.driedFrom(),
        cup.doses.given(),
        cup.account,
        cup.doses.lastPassAt(),
        cup.witness.soaking(),
        cup.fed,
        cup.doses.salts().atCapacityMsPerCm(cup.capacityMl()),
        draft.rootsC(cup),
        cup.watering.driest(),
        () -> StrengthMeant.mostOfPass(draft, cup),
        hose,
        draft.seen.watchOnly() || draft.bench.reaches(cup.setup));
  }

  Case.BenchFacts benchFacts(BenchDraft draft, Case.WindowNow window) {
    return benchFacts(draft, window, List.of());
  }

  /**
   * @param passes of this round so far
   */
  private Case.BenchFacts benchFacts(
      BenchDraft draft, Case.WindowNow window, List<AllowedPass> passes) {
    Supply supply = draft.supply();
    return new Case.BenchFacts(
        draft.bench.watering(),
        draft.bench.feeding(),
        draft.bench.climate(),
        draft.hold,
        draft.pump.latch(),
        draft.pump.watch().leak(),
        WatchPump.trialDue(draft),
        draft.seen.boardFault(),
        supply,
        supply.feed() == null ? null : draft.bench.feeds().get(supply.feed()),
        draft.bench.feeds(),
        draft.seen.clockInDoubt(),
        draft.airC(),
        draft.today(),
        window,
        soakKeptByPerson,
        draft.pumpPart(),
        new Case.Round(roundMl(passes), mostMl(draft)));
  }

  private Case.WindowNow window(Instant at) {
    if (soakKeptByPerson) {
      return new Case.WindowNow(true, true, NEXT_WEIGHING.toMinutes());
    }
    boolean open = openHours.open(at, Duration.ZERO);
    double minutes = Elapsed.minutes(at, openHours.nextOpening(at));
    return new Case.WindowNow(open, openHours.open(at, LONGER_FOR_RETURNED), minutes);
  }
}
