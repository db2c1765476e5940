package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.Cover;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.Distrust;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.Forecast;
import dev.cupwarden.core.estimate.Misplaced;
import dev.cupwarden.core.estimate.OwnWater;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.estimate.WeightFrame;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.state.CupPlant;
import dev.cupwarden.core.state.CupPresence;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.CupWeight;
import dev.cupwarden.core.state.DoseWitness;
import dev.cupwarden.core.state.Doses;
import dev.cupwarden.core.state.WateringState;
import dev.cupwarden.core.watering.BlindRation;
import dev.cupwarden.core.watering.BlindWatering;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.PredictedUse;
import dev.cupwarden.core.watering.Refill;
import dev.cupwarden.core.watering.ScaleDrift;
import dev.cupwarden.core.watering.WaterAccount;
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

  Cup setup;
  CupPresence presence;
  Hold hold;
  Latch latch;
  CupPlant plant;
  CupWeight weight;
  WateringState watering;
  WaterAccount account;
  Doses doses;
  DoseWitness witness;

  // Found by this tick.
  CupFrame frame;
  WeightFrame weights;
  CupEstimate now;
  Instant lookedAt;
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
    presence = kept.presence();
    hold = kept.hold();
    latch = kept.latch();
    plant = kept.plant();
    weight = kept.weight();
    watering = kept.watering();
    account = kept.account();
    doses = kept.doses();
    witness = kept.witness();
  }

  CupState state() {
    return new CupState(
        setup, presence, hold, latch, plant, weight, watering, account, doses, witness);
  }

  /** By when a cup that went out as it does each day is expected back. */
  Optional<Instant> usuallyBackBy(BenchDraft draft) {
    return plant.season().outings().expectedBack(draft.zone());
  }

  /** Reads off the estimate what is known at that moment; never known before the first look. */
  void seeNow(Instant at) {
    EstimateState estimate = weight.estimate();
    weights = estimate.frame(frame.weights());
    now = CupEstimate.at(estimate, frame.weights(), at);
    lookedAt = at;
    ScaleDrift drift = account.drift();
    if (drift.told()) {
      now =
          now.drifting(
              drift.seenGPerH(),
              drift.foretoldGPerH(),
              drift.reckonedG(),
              REPLACED_SD * weights.availableMl());
    }
    if (weight.misplaced().on()) {
      now = now.anothers();
    }
    if (reckoned()) {
      now = now.reckoned(weight.reckoning(), estimate.use(), weights);
    }
  }

  /** Whether its water is reckoned: no weight is to be had that could be its own. */
  boolean reckoned() {
    return weight.reckoning().on() && now.unseen();
  }

  /** Whether it is latched for having changed places with another cup. */
  boolean swapped() {
    return latch != null && latch.is(AlertCode.CUPS_SWAPPED);
  }

  /** Put in the place of another: from here on its own water is reckoned, from that weight. */
  void standsInPlaceOf(String other, Instant since, double ownG, Instant at) {
    weight = weight.with(Misplaced.of(other, since, ownG)).distrusted(at);
    reckonFrom(null);
    seeNow(at);
  }

  /** Its water is reckoned on from there; null: no longer. */
  void reckonFrom(OwnWater water) {
    weight = weight.with(weight.reckoning().with(water));
  }

  /**
   * Under a cover or no longer, by a person's word. A step that its scale showed just before was
   * that, and neither water nor a hand at the cup.
   */
  void covered(boolean covered, Instant at, double waterEcMsPerCm) {
    Cover.Step step = presence.cover().explains(covered, at);
    presence = presence.with(presence.cover().told(covered, at));
    if (step == null) {
      return;
    }
    presence = presence.with(presence.cover().explained(step.gainG()));
    weight = weight.without(step.gainG());
    account = account.without(step.gainG());
    for (Given one : doses.given()) {
      if (one.byHand() && one.at().equals(pouredAt(step.at())) && one.ml() == step.gainG()) {
        SaltBalance salts = doses.salts().minus(one.ml(), waterEcMsPerCm, waterEcMsPerCm);
        doses = doses.minus(one, salts, step.passBefore());
        account = account.given(-one.ml(), true);
        break;
      }
    }
    seeNow(at);
  }

  /** Just before a look that showed it, so that it is not taken to be still on its way. */
  static Instant pouredAt(Instant shownAt) {
    return shownAt.minusNanos(1);
  }

  /** Back in its own place, by what was seen or a person's word: its scale shows it again. */
  void standsInItsOwnPlace(Instant at) {
    latch = swapped() ? null : latch;
    if (weight.misplaced().on()) {
      weight = weight.with(weight.misplaced().back(at)).distrusted(null);
    }
  }

  /**
   * A person says that it is in its own place: what its scale showed until now was another's, and
   * its own water goes on.
   */
  void putBack(Instant at) {
    OwnWater own = weight.misplaced().on() ? weight.reckoning().water() : null;
    standsInItsOwnPlace(at);
    if (own != null) {
      weight = weight.with(weight.estimate().goingOnFrom(own));
    }
  }

  /**
   * Takes that for its capacity. Depletions are counted from it; the least since a refill is kept.
   */
  void learnCapacity(Capacity capacity, Instant at) {
    weight = weight.with(weight.estimate().withCapacity(capacity));
    seeNow(at);
    watering = watering.seenAt(depletion());
  }

  /** Water between its capacity, learned or predicted, and where the cutting can take no more. */
  double availableMl() {
    return weight.estimate().frame(frame.weights()).availableMl();
  }

  /** Water at its capacity, learned or predicted. */
  double capacityMl() {
    return weight.estimate().frame(frame.weights()).capacityMl();
  }

  /** The refill under way; null where there is none. */
  Refill refill() {
    return watering.refill();
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
    ScaleDrift drift = account.drift();
    double unexplainedG = drift.told() ? 0.0 : drift.unexplainedG();
    double wetG = weights.massG(frame.lines().wet());
    double doubtG =
        now.trusted() || (reckoned() && drainsFirst())
            ? 0.0
            : BlindWatering.ONE_IN_TWENTY_SDS * now.massSdG();
    return wetG - massG() - unexplainedG - doubtG;
  }

  /** Whether its water runs out below before it is too wet: then no doubt of it can drown it. */
  private boolean drainsFirst() {
    return witness.learned() && weights.massG(frame.lines().wet()) >= weights.capacityG();
  }

  /** Whether its scale is at fault, and nothing that was done with the cup. */
  boolean blind() {
    return now.known()
        && !presence.away()
        && !weight.estimate().handled()
        && now.distrust().map(Distrust::code).filter(DistrustCode::scaleFailed).isPresent();
  }

  /** Whether a blind cup that may be is watered by what is reckoned of it. */
  boolean wateredBlind(Instant at) {
    return setup.stage().rooted()
        && reckoned()
        && Duration.between(weight.distrustedSince(), at).compareTo(blindAfter()) >= 0
        && (drainsFirst() || weightSd() < BlindWatering.GREATEST_SD);
  }

  /** How long a blind cup waits for its scale. */
  Duration blindAfter() {
    return blind() && setup.stage().rooted()
        ? BlindWatering.after(now.distrust().get().code())
        : BlindRation.AFTER;
  }

  /** Standard deviation of the weight alone, as a part of the available water. */
  double weightSd() {
    return now.massSdG() / weights.availableMl();
  }

  /** Standard deviation of the depletion, that of the cup's lines included. */
  double depletionSd() {
    return weight
        .estimate()
        .capacity()
        .depletionSd(
            frame.weights(), massG(), now.massSdG(), weight.weighing().knownSince(), lookedAt);
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
    return Optional.of(
        now.rateKnown()
            ? Forecast.of(
                massG(),
                now,
                weight.estimate(),
                weights,
                OptionalDouble.empty(),
                draft.lightKnown().hour())
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
    Instant lastPassAt = doses.lastPassAt();
    if (reckoned() || lastPassAt == null || lastPassAt.isBefore(now.readAt())) {
      return 0.0;
    }
    List<Given> given = doses.given();
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
    SaltBalance salts = doses.salts().plus(one.ml(), ecMsPerCm, waterEcMsPerCm);
    doses = doses.plus(one, salts, one.at().minus(kept), now.readAt());
    account = account.given(one.ml(), one.byHand());
  }

  /** Ends the refill under way; from here on drying back counts. */
  void endRefill(Instant at) {
    Refill over = refill();
    watering = watering.withoutRefill();
    if (over.orderedMl() > 0.0) {
      // A refill cut short by night is taken up again; one that no reading bore out is not.
      double depletion = depletion();
      watering =
          watering.ended(
              witness.learned() ? Math.min(depletion, frame.lines().refill()) : depletion);
      double refilledPart = over.orderedMl() / availableMl();
      doses = doses.with(doses.habit().plus(over.startedAt(), refilledPart));
      if (now.trusted() && (full || roomMl() < leastMl(over.cause()))) {
        account = account.filled(at, roomMl());
      }
    }
  }
}
