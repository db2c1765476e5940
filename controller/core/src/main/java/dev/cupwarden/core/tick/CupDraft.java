package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.dosing.Rising;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.dosing.Steps;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.Forecast;
import dev.cupwarden.core.estimate.Misplaced;
import dev.cupwarden.core.estimate.Reckoning;
import dev.cupwarden.core.estimate.RootSignal;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.estimate.WeightFrame;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.feeding.WateringHabit;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.Weighing;
import dev.cupwarden.core.watering.BlindRation;
import dev.cupwarden.core.watering.BlindWatering;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.DryClock;
import dev.cupwarden.core.watering.LowAir;
import dev.cupwarden.core.watering.PredictedUse;
import dev.cupwarden.core.watering.Refill;
import dev.cupwarden.core.watering.ScaleDrift;
import dev.cupwarden.core.watering.UseLog;
import dev.cupwarden.core.watering.WaterAccount;
import dev.cupwarden.core.watering.WetClock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A cup's next state while one tick works it out, with what this tick found of it. It never leaves
 * the tick: {@link #state()} is what remains.
 */
final class CupDraft {
  /** A weight that is reckoned in a drifting scale's place is known to so much of what counts. */
  private static final double REPLACED_SD = 0.1;

  /** Code of the latch of cups that changed places. */
  static final String SWAPPED = "cups-swapped";

  Cup setup;
  Instant stageSince;
  EstimateState estimate;
  double lastReadG;
  boolean learned;
  boolean halfGiven;
  boolean away;
  Instant awaySince;
  Instant backAt;
  Hold hold;
  Latch latch;
  Refill refill;
  double driedFrom;
  Instant lastPassAt;
  Soaking soaking;
  PassOnTrial onTrial;
  PassOnTrial shortRun;
  int shortPasses;
  Rising rising;
  Steps steps;
  WetClock wet;
  UseLog use;
  RootSignal roots;
  List<Given> given;
  double unlookedMl;
  WateringHabit habit;
  SaltBalance salts;
  Instant distrustedSince;
  Weighing weighing;
  DryClock dryClock;
  WaterAccount account;
  Reckoning reckoning;
  Misplaced misplaced;
  LowAir lowAir;

  // Found by this tick.
  CupFrame frame;
  WeightFrame weights;
  CupEstimate now;
  double readG = Double.NaN;
  double readBeforeG = Double.NaN;
  List<WeightEvent> events = List.of();
  boolean full;
  Refill wanted;
  Limits.Allowance allowance;
  double fed;
  final List<AllowedPass> passes = new ArrayList<>(1);
  DoseCheck.Finding finding;

  CupDraft(CupState kept) {
    setup = kept.setup();
    stageSince = kept.stageSince();
    estimate = kept.estimate();
    lastReadG = kept.lastReadG();
    learned = kept.learned();
    halfGiven = kept.halfGiven();
    away = kept.away();
    awaySince = kept.awaySince();
    backAt = kept.backAt();
    hold = kept.hold();
    latch = kept.latch();
    refill = kept.refill();
    driedFrom = kept.driedFrom();
    lastPassAt = kept.lastPassAt();
    soaking = kept.soaking();
    onTrial = kept.onTrial();
    shortRun = kept.shortRun();
    shortPasses = kept.shortPasses();
    rising = kept.rising();
    steps = kept.steps() == null ? Steps.NONE : kept.steps();
    wet = kept.wet();
    use = kept.use();
    roots = kept.roots();
    given = kept.given();
    unlookedMl = kept.unlookedMl();
    habit = kept.habit();
    salts = kept.salts();
    distrustedSince = kept.distrustedSince();
    weighing = kept.weighing() == null ? Weighing.NONE : kept.weighing();
    dryClock = kept.dryClock() == null ? DryClock.MOIST : kept.dryClock();
    account = kept.account() == null ? WaterAccount.NONE : kept.account();
    reckoning = kept.reckoning() == null ? Reckoning.NONE : kept.reckoning();
    misplaced = kept.misplaced() == null ? Misplaced.NONE : kept.misplaced();
    lowAir = kept.lowAir() == null ? LowAir.NONE : kept.lowAir();
  }

  CupState state() {
    return new CupState(
        setup,
        stageSince,
        estimate,
        lastReadG,
        learned,
        halfGiven,
        away,
        awaySince,
        backAt,
        hold,
        latch,
        refill,
        driedFrom,
        lastPassAt,
        soaking,
        onTrial,
        shortRun,
        shortPasses,
        rising,
        steps,
        wet,
        use,
        roots,
        given,
        unlookedMl,
        habit,
        salts,
        distrustedSince,
        weighing,
        dryClock,
        account,
        reckoning,
        misplaced,
        lowAir);
  }

  /** Reads off the estimate what is known at that moment; never known before the first look. */
  void seeNow(Instant at) {
    weights = estimate.frame(frame.weights());
    now = CupEstimate.at(estimate, frame.weights(), at);
    ScaleDrift drift = account.drift();
    if (drift.told()) {
      now =
          now.drifting(
              drift.seenGPerH(),
              drift.foretoldGPerH(),
              drift.reckonedG(),
              REPLACED_SD * weights.availableMl());
    }
    if (misplaced.on()) {
      now = now.anothers();
    }
    if (reckoned()) {
      now = now.reckoned(reckoning, estimate.use(), weights);
    }
  }

  /** Whether its water is reckoned: no weight is to be had that could be its own. */
  boolean reckoned() {
    return reckoning.on() && now.unseen();
  }

  /** Whether it is latched for having changed places with another cup. */
  boolean swapped() {
    return latch != null && latch.code().equals(SWAPPED);
  }

  /** Put in the place of another: from here on its own water is reckoned, from that weight. */
  void standsInPlaceOf(String other, Instant since, double ownG, Instant at) {
    misplaced = Misplaced.of(other, since, ownG);
    reckoning = reckoning.with(null);
    distrustedSince = at;
    seeNow(at);
  }

  /** Back in its own place, by what was seen or a person's word: its scale shows it again. */
  void standsInItsOwnPlace(Instant at) {
    latch = swapped() ? null : latch;
    if (misplaced.on()) {
      misplaced = misplaced.back(at);
      distrustedSince = null;
    }
  }

  /**
   * Takes that for its capacity. Depletions are counted from it; the least since a refill is kept.
   */
  void learnCapacity(Capacity capacity, Instant at) {
    estimate = estimate.withCapacity(capacity);
    seeNow(at);
    driedFrom = Math.min(driedFrom, depletion());
  }

  /** Water between its capacity, learned or predicted, and where the cutting can take no more. */
  double availableMl() {
    return estimate.frame(frame.weights()).availableMl();
  }

  /** Water at its capacity, learned or predicted. */
  double capacityMl() {
    return estimate.frame(frame.weights()).capacityMl();
  }

  String name() {
    return setup.name();
  }

  /** Gross grams, what is on its way counted as arrived; NaN if never known. */
  double massG() {
    return now.known() ? now.massG() + Math.max(0.0, onItsWayMl() - now.beyondDryG()) : Double.NaN;
  }

  /** 0 at capacity, 1 where the cutting can take no more; NaN if never known. */
  double depletion() {
    return weights.depletion(massG());
  }

  /** As its scale shows it; of a cup that nobody weighs, as it is reckoned on. */
  double depletionSeen() {
    return now.trusted() ? weights.depletion(now.massG()) : depletion();
  }

  double roomMl() {
    return weights.massG(frame.lines().refill()) - massG();
  }

  /**
   * What its scale lost and nothing explains may still be in the cup. A cup that nobody weighs is
   * taken to be as wet as one in twenty such is, yet no wetter than it is when drained: where that
   * is not past the wet line, no doubt can be.
   */
  double roomToWetMl() {
    double unexplainedG = account.drift().told() ? 0.0 : account.drift().unexplainedG();
    double wetG = weights.massG(frame.lines().wet());
    boolean drainsFirst = learned && wetG >= weights.capacityG();
    double doubtG =
        now.trusted() || (reckoned() && drainsFirst)
            ? 0.0
            : BlindWatering.ONE_IN_TWENTY_SDS * now.massSdG();
    return wetG - massG() - unexplainedG - doubtG;
  }

  /** Whether its scale is at fault, and nothing that was done with the cup. */
  boolean blind() {
    return now.known()
        && !away
        && !estimate.handled()
        && now.distrust().map(Reason::code).filter(BlindWatering::deadScale).isPresent();
  }

  /** Whether a blind cup that may be is watered by what is reckoned of it. */
  boolean wateredBlind(Instant at) {
    return setup.stage().rooted()
        && reckoned()
        && Duration.between(distrustedSince, at).compareTo(blindAfter()) >= 0
        && depletionSd() < BlindWatering.GREATEST_SD;
  }

  /** How long a blind cup waits for its scale. */
  Duration blindAfter() {
    return blind() && setup.stage().rooted()
        ? BlindWatering.after(now.distrust().get().code())
        : BlindRation.AFTER;
  }

  /** Standard deviation of the depletion. */
  double depletionSd() {
    return now.massSdG() / weights.availableMl();
  }

  /**
   * Smaller passes are not worth a valve, or cannot be told from noise. A blind ration is told from
   * nothing: its cup's weight is ever less sure, and must not hold back what is given for want of
   * it.
   *
   * @param cause why there would be a pass; null where there is none
   */
  double leastMl(Cause cause) {
    boolean weighed = now.known() && cause != Cause.BLIND;
    return Math.max(Limits.LEAST_PASS_ML, 8.0 * (weighed ? now.massSdG() : 0.0));
  }

  /** Loss, g/h: learned, else predicted. */
  double rateGPerH() {
    return now.rateKnown() ? now.rateGPerH() : predictedGPerH();
  }

  /** Loss of a cup of this kind, g/h, before anything was learned of it. */
  double predictedGPerH() {
    return PredictedUse.rateGPerH(setup.stage(), frame.lines(), availableMl());
  }

  /** How it dries from now on; empty if its weight is not known. */
  Optional<Forecast> forecast(BenchDraft draft) {
    if (!now.known()) {
      return Optional.empty();
    }
    double vpdKpa = draft.vpdKpa();
    OptionalDouble vpd = Double.isNaN(vpdKpa) ? OptionalDouble.empty() : OptionalDouble.of(vpdKpa);
    return Optional.of(
        now.rateKnown()
            ? Forecast.of(massG(), now, estimate, vpd)
            : Forecast.foretold(massG(), now.massSdG(), predictedGPerH()));
  }

  /** Whether it passes its dry line before then in one of ten cases, or more. */
  boolean mayBeDryBefore(Instant until, BenchDraft draft) {
    double dryG = weights.massG(frame.lines().dry());
    return forecast(draft)
        .filter(one -> one.before(until, dryG, Forecast.Bound.EARLY, draft.at))
        .isPresent();
  }

  /** Ordered since its scale was last read, mL. */
  private double onItsWayMl() {
    if (reckoned() || lastPassAt == null || lastPassAt.isBefore(now.readAt())) {
      return 0.0;
    }
    double sumMl = 0.0;
    for (int i = given.size() - 1; i >= 0; i--) {
      Given one = given.get(i);
      if (one.at().isBefore(now.readAt())) {
        break;
      }
      sumMl += one.ml();
    }
    return sumMl;
  }

  /**
   * Counts water as given, and forgets what is older than any ledger asks and was seen in the cup's
   * weight.
   */
  void give(Given one, double ecMsPerCm, double waterEcMsPerCm, Duration kept) {
    List<Given> next = new ArrayList<>(given.size() + 1);
    Instant oldest = one.at().minus(kept);
    for (Given before : given) {
      if (before.at().isAfter(oldest) || unseen(before)) {
        next.add(before);
      }
    }
    next.add(one);
    given = List.copyOf(next);
    salts = salts.plus(one.ml(), ecMsPerCm, waterEcMsPerCm);
    lastPassAt = one.at();
    unlookedMl += one.ml();
    account = account.given(one.ml(), one.byHand());
  }

  private boolean unseen(Given one) {
    return now.readAt() != null && !one.at().isBefore(now.readAt());
  }

  /** Ends the refill under way; from here on drying back counts. */
  void endRefill(Instant at) {
    double refilledPart = refill.orderedMl() / availableMl();
    if (refill.orderedMl() > 0.0) {
      // A refill cut short by night is taken up again; one that no reading bore out is not.
      driedFrom = learned ? Math.min(depletion(), frame.lines().refill()) : depletion();
      habit = habit.plus(refill.startedAt(), refilledPart);
      halfGiven = true;
      if (now.trusted() && (full || roomMl() < leastMl(refill.cause()))) {
        account = account.filled(at, roomMl());
      }
    }
    refill = null;
  }
}
