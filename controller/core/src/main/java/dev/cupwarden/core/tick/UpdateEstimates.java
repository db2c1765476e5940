package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Rising;
import dev.cupwarden.core.estimate.CupReading;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.EstimateStep;
import dev.cupwarden.core.estimate.Estimator;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.units.MiddleValue;
import dev.cupwarden.core.watering.OpenHours;
import dev.cupwarden.core.watering.UseLog;
import java.time.Duration;
import java.time.Instant;

/** What each cup holds, how fast it dries and whether to trust its scale. */
final class UpdateEstimates {
  /** Fewer cups say nothing of how a bench dries. */
  private static final int LEAST_NEIGHBOURS = 3;

  /** After a pass, until water has sunk in and drained. */
  private static final Duration SINKS_IN = Duration.ofMinutes(60);

  /** Leaves hardly draw in less, umol/m2/s. */
  private static final double DIM = 20.0;

  private final Estimator estimator;
  private final OpenHours daylight;
  private final WeighDrained weighDrained;

  /** With the hours of light, for benches without a light sensor. */
  UpdateEstimates(Estimator estimator, OpenHours daylight, WeighDrained weighDrained) {
    this.estimator = estimator;
    this.daylight = daylight;
    this.weighDrained = weighDrained;
  }

  void update(BenchDraft draft) {
    double vpdKpa = draft.vpdKpa();
    int moved = 0;
    for (CupDraft cup : draft.cups.values()) {
      cup.readG = reading(draft, cup);
      moved += moved(cup) ? 1 : 0;
    }
    double dryingPerDay = dryingPerDay(draft);
    String feedName = draft.feedByHand();
    Feed feed = feedName == null ? null : draft.bench.feeds().get(feedName);
    for (CupDraft cup : draft.cups.values()) {
      look(draft, cup, vpdKpa, moved);
      logUse(draft, cup, feed);
      logDraw(draft, cup, vpdKpa);
      if (cup.now.trusted()) {
        cup.watering =
            cup.watering.with(
                cup.watering
                    .wet()
                    .look(draft.at, cup.depletion(), cup.frame.lines(), dryingPerDay));
      }
    }
    WatchSwapped.find(draft);
  }

  /** By how much the middle cup's depletion grows in a day; NaN where too few cups are known. */
  private static double dryingPerDay(BenchDraft draft) {
    double[] perDay = new double[draft.cups.size()];
    int known = 0;
    for (CupDraft cup : draft.cups.values()) {
      double drying = cup.plant.use().lostPerDayG() / cup.availableMl();
      if (!Double.isNaN(drying)) {
        perDay[known++] = drying;
      }
    }
    return MiddleValue.of(perDay, known, LEAST_NEIGHBOURS);
  }

  /** Whether its scale shows another weight than at its last reading. */
  private static boolean moved(CupDraft cup) {
    return !Double.isNaN(cup.readG) && cup.readG != cup.weight.lastReadG();
  }

  private void look(BenchDraft draft, CupDraft cup, double vpdKpa, int moved) {
    Instant at = draft.at;
    if (cup.plant.stageSince() == null) {
      cup.plant = cup.plant.ofStageSince(at);
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
                AirState.valueOf(draft.air.light()),
                neighboursMoved));
    // What another cup shows in its place is not its capacity.
    EstimateState next =
        cup.weight.misplaced().on()
            ? step.state().withCapacity(cup.weight.estimate().capacity())
            : step.state();
    cup.readBeforeG = cup.weight.lastReadG();
    cup.weight = cup.weight.looked(next, cup.readG);
    cup.events = step.events();
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
      return readG;
    }
    Double theta = draft.seen.theta().get(cup.name());
    return theta == null
        ? Double.NaN
        : cup.frame.water().dryGrossG() + theta * cup.frame.water().volumeMl();
  }

  private static void logUse(BenchDraft draft, CupDraft cup, Feed feed) {
    if (draft.before.at() == null || !cup.now.rateKnown() || !cup.now.trusted()) {
      return;
    }
    double hours = Elapsed.hours(draft.before.at(), draft.at);
    if (hours <= UseLog.LONGEST_GAP_H) {
      double lostG = cup.now.rateGPerH() * hours;
      cup.plant = cup.plant.with(cup.plant.use().plus(draft.at, lostG, hours));
      cup.doses = cup.doses.with(cup.doses.salts().used(lostG, cup.setup.stage(), feed));
    }
  }

  /** Counts only what surely dried: no water on its way or draining, nothing handled. */
  private void logDraw(BenchDraft draft, CupDraft cup, double vpdKpa) {
    boolean drying =
        cup.now.trusted()
            && draft.before.at() != null
            && cup.events.isEmpty()
            && !Double.isNaN(cup.readG)
            && (cup.doses.lastPassAt() == null
                || Duration.between(cup.doses.lastPassAt(), draft.at).compareTo(SINKS_IN) > 0);
    if (!drying) {
      cup.plant = cup.plant.with(cup.plant.draw().interrupted());
      return;
    }
    double hours = Elapsed.hours(draft.before.at(), draft.at);
    cup.plant =
        cup.plant.with(
            hours <= UseLog.LONGEST_GAP_H
                ? cup.plant.draw().dried(cup.now.massG(), hours, vpdKpa, light(draft))
                : cup.plant.draw().interrupted());
  }

  /** By the light sensor; without one, by the hours of daylight. */
  private boolean light(BenchDraft draft) {
    double light = AirState.valueOf(draft.air.light());
    return Double.isNaN(light) ? daylight.open(draft.at, Duration.ZERO) : light > DIM;
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
            new Given(draft.at.minusNanos(1), watering.gainG(), 0.0, null, roomBeforeMl, true),
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
