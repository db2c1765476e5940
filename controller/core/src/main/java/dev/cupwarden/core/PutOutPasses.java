package dev.cupwarden.core;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.feeding.FeedLedger;
import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Case;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.OpenHours;
import dev.cupwarden.core.watering.PredictedUse;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;

/** Proposed passes through the limits, and out: one round over all cups that want water. */
final class PutOutPasses {
  /** A cup that was away may be watered so much later in the day. */
  private static final Duration LONGER_FOR_RETURNED = Duration.ofHours(2);

  /** Limits that a hand dose waits for rather than being refused by. */
  private static final Set<String> WAITED_FOR = Set.of("soak", "pass");

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
   * than the pump can give within a tick. A longer one would keep the next look at the cups
   * waiting, and the soak of its last cups would be counted from long before their water came.
   */
  List<AllowedPass> round(BenchDraft draft) {
    Case.WindowNow window = window(draft.at);
    Case.BenchFacts facts = benchFacts(draft, window);
    List<Wish> wishes = new ArrayList<>();
    for (CupDraft cup : draft.cups.values()) {
      cup.wanted = propose.refill(draft, cup, window);
      cup.allowance = null;
      if (cup.wanted != null && mayBe(draft, cup, facts)) {
        wishes.add(new Wish(cup, cup.wanted, judge(draft, cup, cup.wanted, facts)));
      }
    }
    if (facts.trial()) {
      wishes.removeIf(wish -> !WatchPump.canTry(wish.cup()));
      wishes.sort(driestButNot(draft.trial.cup()));
    } else {
      wishes.sort(TURN);
    }
    List<AllowedPass> passes = new ArrayList<>();
    double lastAtMl = mostMl(draft) - draft.bench.watering().passMl();
    for (Wish wish : wishes) {
      if (passes.isEmpty() || roundMl(passes) <= lastAtMl) {
        putOut(draft, wish, window, passes);
      }
    }
    return passes;
  }

  private static double roundMl(List<AllowedPass> passes) {
    return passes.stream().mapToDouble(AllowedPass::totalMl).sum();
  }

  /** What the pump gives within a tick; no bound where a person waters. */
  private double mostMl(BenchDraft draft) {
    double tickS = draft.bench.tick().toMillis() / 1_000.0;
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
    return cup.wanted.cause().byHand() || !Limits.forbids(proposed(draft, cup, cup.wanted, facts));
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

  private record Wish(CupDraft cup, Refill wanted, Limits.Allowance allowance) {}

  /** Rescues first; then who waited longest for a pass; then the driest; then by name. */
  private static final Comparator<Wish> TURN =
      Comparator.comparing((Wish wish) -> wish.cup().depletion() <= wish.cup().frame.lines().dry())
          .thenComparing(
              wish -> wish.cup().lastPassAt == null ? Instant.MIN : wish.cup().lastPassAt)
          .thenComparing(wish -> -wish.cup().depletion())
          .thenComparing(wish -> wish.cup().name());

  /** For a trial of the pump: the driest, but who was tried last comes last. */
  private static Comparator<Wish> driestButNot(String triedLast) {
    return Comparator.comparing((Wish wish) -> wish.cup().name().equals(triedLast))
        .thenComparing(wish -> -wish.cup().depletion())
        .thenComparing(wish -> wish.cup().name());
  }

  private void putOut(
      BenchDraft draft, Wish wish, Case.WindowNow window, List<AllowedPass> passes) {
    CupDraft cup = wish.cup();
    // Cups before this one in the round may have emptied a tank.
    Limits.Allowance allowance =
        passes.isEmpty()
            ? wish.allowance()
            : judge(draft, cup, wish.wanted(), benchFacts(draft, window));
    cup.allowance = allowance;
    double wanted = strength(draft, cup, wish.wanted());
    if (!Double.isNaN(wish.wanted().strengthAsked()) && wanted > allowance.strength() + 1e-9) {
      refuseByHand(draft, cup, feedReasons(cup, allowance));
      return;
    }
    if (!allowance.water()) {
      refuseByHand(draft, cup, allowance.holding());
      return;
    }
    Supply supply = draft.supply();
    double most = Math.min(allowance.strength(), draft.bench.feeding().ceiling());
    if (!Double.isNaN(wish.wanted().strengthAsked())) {
      // Where plain water has run out, a flush is not given with feed, nor a dose stronger than
      // said.
      most = Math.min(most, wanted);
    }
    TankDraw draw = supply.draw(allowance.ml(), wanted, most);
    if (draw.totalMl() <= 0.0) {
      draft.unsuited = true;
      return;
    }
    AllowedPass pass = Limits.allow(cup.name(), wish.wanted().cause(), allowance, supply, draw);
    count(draft, cup, wish.wanted(), pass, supply);
    passes.add(pass);
  }

  private static List<Reason> feedReasons(CupDraft cup, Limits.Allowance allowance) {
    return allowance.feedHolding().isEmpty()
        ? List.of(new Reason("ledger", cup.fed, FeedLedger.MOST, "label"))
        : allowance.feedHolding();
  }

  /** A hand dose that a limit forbids is refused at once, so that the person can do otherwise. */
  private static void refuseByHand(BenchDraft draft, CupDraft cup, List<Reason> reasons) {
    if (cup.refill == null || !cup.refill.cause().byHand()) {
      return;
    }
    List<Reason> standing =
        reasons.stream().filter(reason -> !WAITED_FOR.contains(reason.code())).toList();
    if (standing.isEmpty()) {
      return;
    }
    String id = cup.refill.orderId();
    String why = Sentences.joined(standing);
    if (cup.refill.orderedMl() > 0.0) {
      cup.endRefill(draft.at);
      draft.receipts.add(new Receipt(id, "done", "ended early: " + why, List.of()));
    } else {
      cup.refill = null;
      draft.receipts.removeIf(receipt -> id.equals(receipt.id()));
      draft.receipts.add(Receipt.refused(id, why));
    }
  }

  /** From here on the pass counts as given. */
  private static void count(
      BenchDraft draft, CupDraft cup, Refill wanted, AllowedPass pass, Supply supply) {
    double roomMl = cup.roomMl();
    double overMl = cup.massG() + pass.totalMl() - cup.weights.capacityG();
    draft.trayMl += Math.max(0.0, Math.min(pass.totalMl(), overMl));
    if (!cup.reckoned()) {
      // A reckoned weight is no witness: a scale that comes back judges none but what it saw.
      PassOnTrial trial =
          new PassOnTrial(
              draft.at, 1, pass.totalMl(), cup.massG(), cup.rateGPerH(), cup.now.massSdG());
      cup.onTrial = cup.onTrial == null ? trial : cup.onTrial.plus(trial);
    }
    String feedName = pass.feedMl() > 0.0 ? supply.feed() : null;
    Feed feed = feedName == null ? null : draft.bench.feeds().get(feedName);
    cup.give(
        new Given(draft.at, pass.totalMl(), pass.strength(), feedName, roomMl),
        SaltBalance.ecMsPerCm(draft.bench.waterEcMsPerCm(), feed, pass.strength()),
        draft.bench.waterEcMsPerCm(),
        draft.ledgerSpan());
    cup.reckoning = cup.reckoning.pass(pass.totalMl(), cup.weights.capacityG());
    cup.seeNow(draft.at);
    draft.draw(pass);
    WatchPump.gave(draft, cup.name(), pass.totalMl());
    cup.refill = wanted.plus(pass.totalMl());
    cup.passes.add(pass);
  }

  private static Limits.Allowance judge(
      BenchDraft draft, CupDraft cup, Refill wanted, Case.BenchFacts facts) {
    cup.fed =
        FeedLedger.fed(
            cup.given, draft.at, draft.interval(draft.supply().feed()), cup.availableMl());
    return Limits.judge(proposed(draft, cup, wanted, facts));
  }

  private static Case proposed(
      BenchDraft draft, CupDraft cup, Refill wanted, Case.BenchFacts facts) {
    double leastMl = cup.leastMl(wanted == null ? null : wanted.cause());
    Case.Proposal proposal =
        wanted == null
            ? new Case.Proposal(null, leastMl, leastMl, Set.of(), false)
            : new Case.Proposal(
                wanted.cause(), wanted.leftMl(), leastMl, wanted.lifts(), wanted.orderedMl() > 0.0);
    return new Case(draft.at, proposal, cupFacts(cup), facts);
  }

  private static Case.CupFacts cupFacts(CupDraft cup) {
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
        cup.away,
        cup.backAt,
        cup.wet,
        cup.driedFrom,
        cup.given,
        cup.use,
        cup.lastPassAt,
        cup.soaking,
        cup.fed,
        cup.salts.atCapacityMsPerCm(cup.capacityMl()));
  }

  private Case.BenchFacts benchFacts(BenchDraft draft, Case.WindowNow window) {
    Supply supply = draft.supply();
    return new Case.BenchFacts(
        draft.bench.watering(),
        draft.bench.feeding(),
        draft.bench.climate(),
        draft.hold,
        draft.pumpLatch,
        draft.leak,
        WatchPump.trialDue(draft),
        supply.totalMl(),
        supply.feed() == null ? null : draft.bench.feeds().get(supply.feed()),
        draft.bench.feeds(),
        draft.seen.clockInDoubt(),
        draft.airC(),
        draft.rootC(),
        draft.today(),
        window,
        soakKeptByPerson);
  }

  private Case.WindowNow window(Instant at) {
    boolean open = openHours.open(at, Duration.ZERO);
    double minutes = Elapsed.minutes(at, openHours.nextOpening(at));
    return new Case.WindowNow(open, openHours.open(at, LONGER_FOR_RETURNED), minutes);
  }

  /** Label strength wished for: what a person asked, else what stage and habit want. */
  private static double strength(BenchDraft draft, CupDraft cup, Refill wanted) {
    if (!Double.isNaN(wanted.strengthAsked())) {
      return wanted.strengthAsked();
    }
    Duration interval = draft.interval(draft.supply().feed());
    double target =
        FeedStrength.target(
            draft.bench.feeding(), cup.setup.stage(), cup.stageSince, draft.at, interval);
    double refilledPart = cup.frame.lines().due() - cup.frame.lines().refill();
    double everyDays =
        cup.now.rateKnown() && cup.now.rateGPerH() > 0.0
            ? refilledPart * cup.availableMl() / (cup.now.rateGPerH() * 24.0)
            : PredictedUse.days(cup.setup.stage());
    if (cup.habit.known()) {
      refilledPart = cup.habit.refilledPart();
      everyDays = cup.habit.everyDays();
    }
    double intervalDays = interval.toMillis() / 86_400_000.0;
    return FeedStrength.of(draft.bench.feeding(), target, everyDays, intervalDays, refilledPart)
        * FeedStrength.coolRootsPart(draft.rootC(), draft.bench.climate().coldC());
  }
}
