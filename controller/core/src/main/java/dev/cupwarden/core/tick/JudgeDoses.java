package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Diverted;
import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.dosing.Rising;
import dev.cupwarden.core.dosing.Steps;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.WeightEvent;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** The weights as witnesses: did each pass arrive, and did water go where none was sent. */
final class JudgeDoses {
  /** So many passes running that hardly raise a cup are no accident. */
  private static final int SHORT_PASSES = 2;

  /** So many cups running are the pump's fault, or the tank's. */
  private static final int SHORT_CUPS = 3;

  /** Less of a pass is none: our choice. */
  private static final double SOME_G = 0.4;

  /** A rise is one beyond so many standard deviations of the weight: our choice. */
  private static final double SURE_SDS = 4.0;

  /** A cup within this part of its available water of its predicted capacity is full. */
  private static final double FULL_WITHIN = 0.2;

  /** Another cup that rises this soon after passes may have got them. */
  private static final Duration STRAY_WITHIN = Duration.ofMinutes(30);

  /** Valves drip by a few mL an hour, each for itself; a pump moves as much in seconds. */
  private static final double DRIPS_G_PER_H = 20.0;

  /** Fewer other cups say nothing of dew or of a drift of all scales. */
  private static final int LEAST_OTHERS = 3;

  void judge(BenchDraft draft) {
    if (draft.seen.boardFault()) {
      // What the board itself says it did not give, no weight need witness.
      draft.cups.values().forEach(cup -> unseen(draft, cup));
    }
    for (CupDraft cup : draft.cups.values()) {
      boolean dosed = cup.witness.onTrial() != null || justGiven(draft, cup);
      if (dosed) {
        // Unread, too: when the scale speaks again, what was given meanwhile is no leak.
        cup.witness = cup.witness.with(cup.witness.rising().dosed());
      }
      if (!Double.isNaN(cup.readG)) {
        boolean judges =
            cup.witness.onTrial() != null && DoseCheck.judges(cup.witness.onTrial(), draft.at);
        if (judges && plausible(cup) && (draft.byProbe(cup) || !restless(cup))) {
          judge(draft, cup);
        }
        if (!dosed) {
          lookForLeak(draft, cup);
        }
        lookAtSteps(draft, cup);
        forgiveLateArrival(cup);
      }
      if (cup.witness.onTrial() != null && DoseCheck.lapsed(cup.witness.onTrial(), draft.at)) {
        unseen(draft, cup);
      }
    }
    lookForOpenValve(draft);
    WatchPump.look(draft);
  }

  private static void unseen(BenchDraft draft, CupDraft cup) {
    if (cup.witness.onTrial() != null) {
      WatchPump.unseen(draft, cup.witness.onTrial());
      cup.witness = cup.witness.untried();
    }
  }

  private static boolean justGiven(BenchDraft draft, CupDraft cup) {
    return cup.doses.lastPassAt() != null
        && Duration.between(cup.doses.lastPassAt(), draft.at).compareTo(STRAY_WITHIN) <= 0;
  }

  /** A reading may judge unless its scale is known to lie. */
  private static boolean plausible(CupDraft cup) {
    return cup.now.trusted() && !cup.presence.away();
  }

  /** Long before a scale is so noisy that its cup is not watered it is no witness any more. */
  private static boolean restless(CupDraft cup) {
    return cup.weight.estimate().noiseG() > EstimateState.NOISY_SD_G;
  }

  private static void judge(BenchDraft draft, CupDraft cup) {
    PassOnTrial pass = cup.witness.onTrial();
    cup.witness = cup.witness.untried();
    cup.finding = DoseCheck.judge(pass, draft.at, cup.readG);
    WatchPump.judged(draft, cup, pass);
    cup.account = cup.account.arrived(pass.orderedMl(), cup.finding.riseG(), draft.pumpPart());
    if (cup.finding.verdict() == DoseCheck.Verdict.SHORT) {
      cameShort(draft, cup, pass);
      return;
    }
    cup.witness = cup.witness.arrived();
    draft.pump = draft.pump.arrived();
    if (cup.finding.verdict() != DoseCheck.Verdict.OVER && roomBelowCapacity(cup)) {
      cup.account = cup.account.rose(cup.finding.riseG() / cup.finding.orderedMl());
    }
    // What a weak pump never gave did not run past the mix.
    double cameMl = draft.pumpPart() * pass.orderedMl();
    boolean bypass = cup.finding.riseG() < DoseCheck.BYPASS_BELOW * cameMl;
    if (cup.finding.verdict() == DoseCheck.Verdict.BYPASS && bypass) {
      ranThrough(draft, cup, cameMl - cup.finding.riseG(), pass);
    } else {
      cup.witness = cup.witness.with(cup.witness.soaking().afterArrival());
    }
  }

  private static void ranThrough(BenchDraft draft, CupDraft cup, double lostMl, PassOnTrial pass) {
    // A flush is meant to run through; it says nothing of how the mix takes water.
    if (!pass.flush()) {
      boolean hadRoom = cup.depletion() * cup.availableMl() > lostMl;
      cup.witness = cup.witness.with(cup.witness.soaking().afterBypass(hadRoom));
    }
    draft.pump = draft.pump.ranThrough(lostMl);
    double stayed = cup.finding.riseG() / (cup.finding.riseG() + lostMl);
    cup.doses =
        cup.doses
            .with(cup.doses.salts().drained(lostMl, cup.capacityMl()))
            .stayed(pass.passes(), stayed);
  }

  /** A cup that may have run over says nothing of the pump. */
  private static boolean roomBelowCapacity(CupDraft cup) {
    return cup.depletion() > 0.0 && !cup.weight.estimate().draining();
  }

  /**
   * A shut valve leaves nothing; a mix that dried out and sheds water keeps some of a pass, and
   * once it is known to shed, hardly any.
   */
  private static boolean shedsIt(CupDraft cup, PassOnTrial pass) {
    return cup.depletion() > cup.frame.lines().dry()
        && (cup.witness.soaking().sheds()
            || cup.finding.riseG() > Math.max(SOME_G, SURE_SDS * pass.sdG()));
  }

  private static void cameShort(BenchDraft draft, CupDraft cup, PassOnTrial pass) {
    // A cup that a flush has filled is heavier than when drained, and takes no more.
    boolean near = cup.frame.weights().depletion(cup.now.massG()) <= FULL_WITHIN;
    if (shedsIt(cup, pass) || (pass.flush() && near)) {
      ranThrough(draft, cup, draft.pumpPart() * pass.orderedMl() - cup.finding.riseG(), pass);
      return;
    }
    cup.witness = cup.witness.cameShort(pass);
    if (cup.witness.shortPasses() < SHORT_PASSES) {
      return;
    }
    if (near) {
      full(draft, cup);
      cup.witness = cup.witness.withoutShortRun();
      return;
    }
    cup.latch = latch(draft, cup.finding.riseG(), DoseCheck.SHORT_BELOW * pass.orderedMl());
    draft.pump = draft.pump.cameShort(cup.name());
    int shortCups = draft.pump.shortCups().size();
    if (shortCups >= SHORT_CUPS && draft.pump.latch() == null) {
      draft.pump =
          draft.pump.latched(new Latch(AlertCode.DOSE_SHORT, draft.at, shortCups, SHORT_CUPS));
    }
  }

  /**
   * It takes no more. That is its capacity, unless a weighing taught another one: far below that,
   * the weighing is in doubt, and only the next one ends that.
   */
  private static void full(BenchDraft draft, CupDraft cup) {
    cup.full = true;
    Capacity before = cup.weight.estimate().capacity();
    double fullG = cup.now.massG();
    boolean far = cup.weights.capacityG() - fullG > before.farG(cup.frame.weights(), fullG);
    Capacity after = before.ranThrough(draft.at, fullG);
    boolean doubtful = before.by() == Capacity.Teacher.WEIGHING && far && !before.doubted();
    cup.learnCapacity(doubtful ? before.doubted(draft.at) : after, draft.at);
  }

  private static Latch latch(BenchDraft draft, double riseG, double thresholdG) {
    return new Latch(AlertCode.DOSE_SHORT, draft.at, riseG, thresholdG);
  }

  /** A cup whose weight shows the passes after all needs no person. Leaks are never forgiven. */
  private static void forgiveLateArrival(CupDraft cup) {
    boolean latchedShort = cup.latch != null && cup.latch.is(AlertCode.DOSE_SHORT);
    if (!latchedShort || cup.witness.shortRun() == null || !plausible(cup)) {
      return;
    }
    double riseG = cup.now.massG() - cup.witness.shortRun().massBeforeG();
    if (riseG >= DoseCheck.BYPASS_BELOW * cup.witness.shortRun().orderedMl()) {
      cup.latch = null;
      cup.witness = cup.witness.withoutShortRun();
    }
  }

  /** Water that drips on a cup in another's place is a leak as well; a hand at it is none. */
  private static boolean watched(CupDraft cup) {
    boolean swapped = cup.now.distrusted(DistrustCode.CUPS_SWAPPED);
    boolean resting = swapped && cup.weight.estimate().settled() && cup.events.isEmpty();
    return !cup.presence.away() && (plausible(cup) || resting);
  }

  private static void lookForLeak(BenchDraft draft, CupDraft cup) {
    if (!watched(cup)) {
      cup.witness = cup.witness.with(cup.witness.rising().dosed());
      return;
    }
    if (cup.weight.estimate().inDoubt()) {
      return;
    }
    cup.witness = cup.witness.with(cup.witness.rising().read(draft.at, cup.readG));
    if (cup.witness.rising().leaking(0.0)) {
      lookAtClimb(draft, cup);
    }
    lookForStray(draft, cup);
  }

  /** It climbs; but it is a leak only if the others do not climb as much. */
  private static void lookAtClimb(BenchDraft draft, CupDraft cup) {
    double othersG = othersClimbedG(draft, cup);
    if (cup.witness.rising().leaking(othersG)) {
      boolean many = quiet(draft) && leaking(draft, othersG) > 1;
      boolean pumped = many && cup.witness.rising().climbingGPerH(draft.at) > DRIPS_G_PER_H;
      AlertCode code = pumped ? AlertCode.PUMP_RUNNING_ON : AlertCode.VALVE_LEAKING;
      cup.latch =
          new Latch(
              code,
              draft.at,
              cup.witness.rising().climbedG(),
              cup.witness.rising().thresholdG() + othersG);
      if (cup.latch.is(AlertCode.PUMP_RUNNING_ON)) {
        draft.pump = draft.pump.latched(cup.latch);
      }
    }
  }

  private static void lookForStray(BenchDraft draft, CupDraft cup) {
    double leastG = Math.max(Steps.PROOF_G, Rising.stepG(cup.now.massSdG()));
    for (WeightEvent event : cup.events) {
      if (event instanceof WeightEvent.HandWatering rise
          && !cup.swapped()
          && stray(draft, rise.gainG(), leastG)) {
        cup.latch = new Latch(AlertCode.VALVE_LEAKING, draft.at, rise.gainG(), leastG);
        draft.pump = draft.pump.latched(cup.latch);
      }
    }
  }

  /** What cannot wait until the estimate trusts the scale again. */
  private static void lookAtSteps(BenchDraft draft, CupDraft cup) {
    double riseG = cup.readG - cup.readBeforeG;
    // By the raw reading: a cup in doubt has an unsure weight just because of these steps.
    double leastG = Rising.stepG(0.0);
    boolean quiet = quiet(draft);
    boolean sees = seesSteps(cup, quiet);
    if (cup.finding != null && cup.finding.verdict() == DoseCheck.Verdict.OVER) {
      cup.witness =
          cup.witness.with(
              cup.witness.steps().overfilled(cup.finding.riseG() - cup.finding.orderedMl()));
    } else if (!sees || cup.finding != null || cup.witness.onTrial() != null) {
      cup.witness = cup.witness.with(cup.witness.steps().withoutRises());
    } else if (quiet) {
      cup.witness = cup.witness.with(cup.witness.steps().atRest(riseG));
    } else {
      double mostG = DoseCheck.OVER_ABOVE * draft.before.pump().lastPassesMl();
      cup.witness = cup.witness.with(cup.witness.steps().whilePumped(riseG, leastG, mostG));
    }
    boolean running =
        seemsNoisy(cup) ? cup.witness.steps().runningEvenly() : cup.witness.steps().running();
    if (cup.witness.steps().astray() || running) {
      cup.latch = new Latch(AlertCode.VALVE_LEAKING, draft.at, riseG, leastG);
      if (cup.witness.steps().astray()) {
        draft.pump = draft.pump.latched(cup.latch);
      }
      cup.witness = cup.witness.with(Steps.NONE);
    }
  }

  /** What the cups of this look missed of their passes came to others: stops the pump at once. */
  private static void lookForOpenValve(BenchDraft draft) {
    Diverted diverted = Diverted.NONE;
    double gainedG = 0.0;
    List<CupDraft> gained = new ArrayList<>(0);
    for (CupDraft cup : draft.cups.values()) {
      boolean over = cup.finding != null && cup.finding.verdict() == DoseCheck.Verdict.OVER;
      if (cup.finding != null && !over) {
        diverted = diverted.judged(cup.finding, draft.pumpPart());
      }
      double gainG = gainG(draft, cup, over);
      if (gainG > Rising.stepG(0.0)) {
        gained.add(cup);
        gainedG += gainG;
      }
    }
    if (diverted.cameTo(gainedG)) {
      for (CupDraft cup : gained) {
        boolean over = cup.finding != null;
        cup.latch =
            new Latch(
                AlertCode.VALVE_LEAKING, draft.at, gainG(draft, cup, over), Rising.stepG(0.0));
        draft.pump = draft.pump.latched(cup.latch);
      }
    }
  }

  /** What came to a cup beyond its own passes while others were watered, g; 0 if none is seen. */
  private static double gainG(BenchDraft draft, CupDraft cup, boolean over) {
    if (over) {
      return cup.finding.riseG() - draft.pumpPart() * cup.finding.orderedMl();
    }
    boolean itsOwn = cup.finding != null || cup.witness.onTrial() != null;
    return itsOwn || quiet(draft) || !seesSteps(cup, false) ? 0.0 : cup.readG - cup.readBeforeG;
  }

  /** Whether two raw readings in a row say something of water. */
  private static boolean seesSteps(CupDraft cup, boolean quiet) {
    return !cup.presence.away()
        && !cup.now.lifted()
        && !restless(cup)
        && !Double.isNaN(cup.readG - cup.readBeforeG)
        && !faulty(cup, quiet);
  }

  /**
   * A scale that is known to lie says nothing of water; one that is only in doubt may. A weight
   * beyond what the cup can hold may be just the water that went astray, and so may rises that look
   * like a restless scale while nothing is pumped.
   */
  private static boolean faulty(CupDraft cup, boolean quiet) {
    return quiet ? cup.now.distrusted(DistrustCode.SCALE_OUT_OF_RANGE) : seemsNoisy(cup);
  }

  private static boolean seemsNoisy(CupDraft cup) {
    return cup.now.distrusted(DistrustCode.SCALE_NOISY);
  }

  private static long leaking(BenchDraft draft, double othersG) {
    return draft.cups.values().stream()
        .filter(cup -> cup.witness.rising().leaking(othersG))
        .count();
  }

  /** Middle of what the other cups gained; 0 where too few can tell. */
  private static double othersClimbedG(BenchDraft draft, CupDraft cup) {
    double[] climbsG =
        draft.cups.values().stream()
            .filter(other -> other != cup && other.witness.rising().thresholdG() > 0.0)
            .mapToDouble(other -> other.witness.rising().climbedG())
            .sorted()
            .toArray();
    return climbsG.length < LEAST_OTHERS ? 0.0 : climbsG[climbsG.length / 2];
  }

  private static boolean quiet(BenchDraft draft) {
    return draft.before.pump().lastPassesAt() == null
        || Duration.between(draft.before.pump().lastPassesAt(), draft.at).compareTo(STRAY_WITHIN)
            > 0;
  }

  /** A rise no greater than what was just pumped to others is the pump's, not a person's. */
  private static boolean stray(BenchDraft draft, double gainG, double leastG) {
    return !quiet(draft)
        && gainG > leastG
        && gainG <= DoseCheck.OVER_ABOVE * draft.before.pump().lastPassesMl();
  }
}
