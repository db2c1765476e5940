package dev.cupwarden.core.tick;

import dev.cupwarden.core.climate.DryingPower;
import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Rising;
import dev.cupwarden.core.estimate.Cover;
import dev.cupwarden.core.estimate.CupReading;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.EstimateStep;
import dev.cupwarden.core.estimate.Estimator;
import dev.cupwarden.core.estimate.LightKnown;
import dev.cupwarden.core.estimate.MoistureProbe;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.feeding.LeafShare;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.LowAir;
import dev.cupwarden.core.watering.UseLog;
import dev.cupwarden.core.watering.WetClock;
import java.time.Instant;

/** What each cup holds, how fast it dries and whether to trust its scale. */
final class UpdateEstimates {
  /** As for any step that is told from noise. */
  private static final double LEAST_RISE_G = 2.0;

  /** Water that no mix loses from look to look, as a part of its volume: our choice. */
  private static final double LOST_CONTACT = 0.05;

  /** However long it was not believed: our choice. */
  private static final double MOST_UNSURE = 0.10;

  /** Less than this part of a dry cup is an empty scale. */
  private static final double LIFTED_PART_OF_DRY = 0.5;

  private final Estimator estimator;
  private final WeighDrained weighDrained;

  UpdateEstimates(Estimator estimator, WeighDrained weighDrained) {
    this.estimator = estimator;
    this.weighDrained = weighDrained;
  }

  void update(BenchDraft draft) {
    double vpdKpa = draft.vpdKpa();
    LightKnown light = draft.lightKnown();
    int moved = 0;
    for (CupDraft cup : draft.cups.values()) {
      cup.readG = reading(draft, cup);
      moved += moved(cup) ? 1 : 0;
    }
    String feedName = draft.feedByHand();
    Feed feed = feedName == null ? null : draft.bench.feeds().get(feedName);
    for (CupDraft cup : draft.cups.values()) {
      look(draft, cup, vpdKpa, light, moved);
      logUse(draft, cup, feed);
      if (cup.now.trusted()) {
        lookAtAir(draft, cup);
      }
    }
    WatchSwapped.find(draft);
  }

  /**
   * Where no probe tells of the roots, the air does: a small cup follows it within hours, and on a
   * heat mat it errs to the quiet side. A cup that is due before it has air enough is kept so by
   * its lines; that is its set-up, of which {@code check} tells.
   *
   * <p>Nothing is told of a covered cup, which is to stand still, nor before the cup's own rate is
   * known, and of rot weather before its capacity is: the air of a mix that was never weighed
   * drained is a guess. Its wetness is the lesser by its capacity and by its mass, since a cup that
   * was not soaked before that weighing seems wetter than it is.
   */
  private static void lookAtAir(BenchDraft draft, CupDraft cup) {
    lookForHowLong(draft, cup);
    if (!airTells(draft, cup) || !cup.weight.estimate().capacity().learned()) {
      cup.watering = cup.watering.with(LowAir.NONE);
      return;
    }
    double line = cup.frame.water().safeAirDepletion();
    double rootC = draft.rootsC(cup);
    double hours = Elapsed.hours(draft.before.at(), draft.at);
    cup.watering =
        cup.watering.with(
            cup.watering.lowAir().look(hours, wetness(cup), line, rootC, dryingPerH(cup)));
  }

  /** For how long its roots have been short of air, by what it holds or is reckoned to hold. */
  static void lookForHowLong(BenchDraft draft, CupDraft cup) {
    double line = cup.frame.water().safeAirDepletion();
    WetClock wet = cup.watering.wet().look(draft.at, cup.depletion(), cup.frame.lines());
    cup.watering =
        cup.watering.with(
            airTells(draft, cup)
                ? wet.lookAtAir(draft.at, wetness(cup), line, dryingPerH(cup))
                : wet.withAir());
  }

  /**
   * Of a cup that is reckoned against a capacity that nobody learned it would be a guess upon a
   * guess.
   */
  private static boolean airTells(BenchDraft draft, CupDraft cup) {
    return draft.before.at() != null
        && (!cup.reckoned() || cup.weight.estimate().capacity().learned())
        && cup.plant.use().known()
        && !cup.presence.cover().on()
        && cup.frame.water().safeAirDepletion() < cup.frame.lines().due();
  }

  private static double wetness(CupDraft cup) {
    return Math.max(cup.depletion(), cup.frame.water().depletionAt(cup.massG()));
  }

  private static double dryingPerH(CupDraft cup) {
    return cup.plant.use().lostPerDayG() / 24.0 / cup.availableMl();
  }

  /** Whether its scale shows another weight than at its last reading. */
  private static boolean moved(CupDraft cup) {
    return !Double.isNaN(cup.readG) && cup.readG != cup.weight.lastReadG();
  }

  /** Of another cup in its place nothing is learned; what cannot run out shows no capacity. */
  private static EstimateState learned(BenchDraft draft, CupDraft cup, EstimateState seen) {
    EstimateState before = cup.weight.estimate();
    if (cup.weight.misplaced().on()) {
      return seen.learnedAs(before);
    }
    return draft.drains(cup) ? seen : seen.withCapacity(before.capacity());
  }

  private void look(BenchDraft draft, CupDraft cup, double vpdKpa, LightKnown light, int moved) {
    Instant at = draft.at;
    if (cup.plant.stageSince() == null) {
      cup.plant = cup.plant.ofStageSince(at);
      if (cup.doses.salts().equals(SaltBalance.NONE)) {
        cup.doses =
            cup.doses.with(SaltBalance.wetted(cup.capacityMl(), draft.bench.waterEcMsPerCm()));
      }
    }
    boolean neighboursMoved = moved - (moved(cup) ? 1 : 0) > 0;
    EstimateStep step =
        estimator.step(
            cup.weight.estimate(),
            cup.frame.weights(),
            new CupReading(
                at,
                cup.readG,
                cup.doses.unlookedMl(),
                vpdKpa,
                draft.airC(),
                light,
                neighboursMoved,
                cup.presence.cover().on()));
    cup.readBeforeG = cup.weight.lastReadG();
    cup.weight = cup.weight.looked(learned(draft, cup, step.state()), cup.readG);
    cup.events = step.events();
    noteSteps(cup, at);
    cup.doses = cup.doses.looked();
    cup.seeNow(at);
    weighDrained.look(draft, cup);
    if (cup.hold != null && !cup.hold.holdsAt(at)) {
      cup.hold = null;
    }
    cup.watering =
        cup.watering.with(
            cup.watering.dryClock().after(cup.depletionSeen(), cup.frame.lines(), at));
    cup.weight = cup.weight.judged(cup.now.trusted(), at);
    if (cup.now.trusted()) {
      cup.watering = cup.watering.seenAt(cup.depletion());
      learn(draft, cup);
    }
  }

  /** A probe speaks of the water in the mix; its cup weighs that and what is dry of it. */
  private static double reading(BenchDraft draft, CupDraft cup) {
    Double readG = draft.seen.massG().get(cup.name());
    if (readG != null) {
      return withoutCover(draft, cup, readG);
    }
    Double theta = draft.seen.theta().get(cup.name());
    return theta == null ? Double.NaN : byProbe(draft, cup, theta);
  }

  /**
   * A probe has no cup that could be lifted: what falls faster than a mix can dry has lost contact
   * with it, reads air, and says nothing. It is believed again once it shows what the cup is
   * reckoned to hold by then.
   */
  private static double byProbe(BenchDraft draft, CupDraft cup, double theta) {
    double volumeMl = cup.frame.water().volumeMl();
    double readG = MoistureProbe.massG(theta, volumeMl, cup.frame.water().dryGrossG());
    EstimateState estimate = cup.weight.estimate();
    double expectedG =
        cup.now != null && cup.reckoned()
            ? cup.massG()
            : estimate.expectedG(draft.at) + cup.doses.unlookedMl();
    double fellG = expectedG - readG;
    double unsure = Math.min(MOST_UNSURE, estimate.expectedWithinG(draft.at) / volumeMl);
    return fellG > Math.max(LOST_CONTACT, unsure) * volumeMl ? Double.NaN : readG;
  }

  /** What the scale shows of the cup itself, g. */
  private static double withoutCover(BenchDraft draft, CupDraft cup, double readG) {
    Cover cover = cup.presence.cover();
    if (cover.toldAt() == null && !cover.on()) {
      return readG;
    }
    EstimateState estimate = cup.weight.estimate();
    double expectedG = estimate.expectedG(draft.at) + cup.doses.unlookedMl();
    // No cup rises by itself, however long it was not weighed.
    boolean rises = readG - cover.offG() - cup.weight.lastReadG() > LEAST_RISE_G;
    double withinG = rises ? LEAST_RISE_G : estimate.expectedWithinG(draft.at);
    double leastG = LIFTED_PART_OF_DRY * cup.frame.weights().dryG();
    Cover seen = cover.seen(draft.at, readG, leastG, expectedG, withinG);
    cup.presence = cup.presence.with(seen);
    return readG - seen.offG();
  }

  /** What a cover may turn out to have been, if a person says so in time. */
  private static void noteSteps(CupDraft cup, Instant at) {
    for (WeightEvent event : cup.events) {
      double gainG =
          event instanceof WeightEvent.HandWatering poured
              ? poured.gainG()
              : event instanceof WeightEvent.Returned returned ? returned.changeG() : 0.0;
      if (gainG != 0.0) {
        Cover.Step step = new Cover.Step(at, gainG, cup.doses.lastPassAt());
        cup.presence = cup.presence.with(cup.presence.cover().stepped(step));
      }
    }
  }

  private static void logUse(BenchDraft draft, CupDraft cup, Feed feed) {
    if (draft.before.at() == null || !cup.now.rateKnown() || !cup.now.trusted()) {
      return;
    }
    double hours = Elapsed.hours(draft.before.at(), draft.at);
    if (hours <= UseLog.LONGEST_GAP_H) {
      double lostG = cup.now.rateGPerH() * hours;
      cup.plant = cup.plant.with(cup.plant.use().plus(draft.at, lostG, hours));
      cup.doses = cup.doses.with(cup.doses.salts().used(lostG, throughLeaves(draft, cup), feed));
    }
  }

  private static double throughLeaves(BenchDraft draft, CupDraft cup) {
    RootStage stage = cup.setup.stage();
    double vpdKpa = draft.vpdKpa();
    double lostMlPerD = cup.plant.use().known() ? cup.plant.use().lostPerDayG() : Double.NaN;
    return stage.rooted() && lostMlPerD > 0.0 && !Double.isNaN(vpdKpa)
        ? LeafShare.of(
            lostMlPerD, draft.bench.vessels().get(cup.setup.vessel()), DryingPower.kpa(vpdKpa))
        : LeafShare.usual(stage);
  }

  /** A rise seen only after a doubt may be the pass that went before it. */
  private static boolean own(CupDraft cup, double gainG) {
    return cup.witness.onTrial() != null
        && gainG <= DoseCheck.OVER_ABOVE * cup.witness.onTrial().orderedMl() + Rising.stepG(0.0);
  }

  private static void learn(BenchDraft draft, CupDraft cup) {
    for (WeightEvent event : cup.events) {
      if (event instanceof WeightEvent.HandWatering watering && !own(cup, watering.gainG())) {
        double roomBeforeMl = cup.roomMl() + watering.gainG();
        cup.give(
            new Given(CupDraft.pouredAt(draft.at), watering.gainG(), 0.0, null, roomBeforeMl, true),
            draft.bench.waterEcMsPerCm(),
            draft.bench.waterEcMsPerCm(),
            draft.ledgerSpan());
        cup.doses = cup.doses.looked();
        if (cup.roomMl() <= 0.0) {
          cup.account = cup.account.filled(draft.at, 0.0);
        }
      }
    }
  }
}
