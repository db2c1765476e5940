package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import java.util.Optional;

/**
 * What is known of a cup at a moment.
 *
 * @param known whether it was ever read plausibly; all numbers are 0 if not
 * @param massG gross grams now
 * @param beyondDryG what it would have lost beyond all its water at the rate known, g: a cup that
 *     is not weighed may have been given that much meanwhile
 * @param massSdG standard deviation of the weight
 * @param rateGPerH loss in the present weather, g/h, 0 or more
 * @param rateSdGPerH its standard deviation
 * @param rateKnown whether the rate was learned from the cup; if not, it is a guess
 * @param distrust why nothing may be watered on this; empty: trusted
 * @param lifted the cup is off its scale
 * @param readAt last reading; null if never read
 */
public record CupEstimate(
    boolean known,
    double massG,
    double beyondDryG,
    double massSdG,
    double rateGPerH,
    double rateSdGPerH,
    boolean rateKnown,
    Optional<Distrust> distrust,
    boolean lifted,
    Instant readAt) {

  /** Whether all that is wrong with its scale is that it falls by itself. */
  public boolean drifts() {
    return distrusted(DistrustCode.SCALE_DRIFTING);
  }

  /** Whether that is why it is not trusted. */
  public boolean distrusted(DistrustCode why) {
    return distrust.isPresent() && distrust.get().code() == why;
  }

  /** Whether water may be given on this. */
  public boolean trusted() {
    return distrust.isEmpty();
  }

  /**
   * The same of a cup whose scale falls by itself: reckoned in its place, and not to be watered on.
   *
   * @param seenGPerH loss by the scale
   * @param foretoldGPerH what the cup's days, the air and the neighbours foretell instead
   */
  public CupEstimate drifting(
      double seenGPerH, double foretoldGPerH, double reckonedG, double sdG) {
    Distrust drift = new Distrust(DistrustCode.SCALE_DRIFTING, seenGPerH, foretoldGPerH);
    return new CupEstimate(
        known,
        reckonedG,
        0.0,
        sdG,
        foretoldGPerH,
        foretoldGPerH / 3.0,
        rateKnown,
        Optional.of(distrust.orElse(drift)),
        lifted,
        readAt);
  }

  /** The same of a cup in whose place another stands: what that weighs says nothing of it. */
  public CupEstimate anothers() {
    if (distrust.isPresent() && !distrust.get().code().perhapsAnother()) {
      return this;
    }
    Distrust another = new Distrust(DistrustCode.CUPS_SWAPPED, 0, 0);
    return new CupEstimate(
        known,
        massG,
        beyondDryG,
        massSdG,
        rateGPerH,
        rateSdGPerH,
        rateKnown,
        Optional.of(another),
        lifted,
        readAt);
  }

  /**
   * Whether nothing that is weighed now can be the cup; what merely settles is read, if not yet
   * trusted.
   */
  public boolean unseen() {
    return lifted || (distrust.isPresent() && !distrust.get().code().ownWeight());
  }

  /** What is known at that moment, not before the last look. */
  public static CupEstimate at(EstimateState state, WeightFrame frame, Instant now) {
    LoadFilter last = state.filter();
    Optional<Distrust> distrust = distrust(state, now);
    boolean lifted =
        state.excursion() != null
            && state.excursion().fault() == Fault.LIFTED
            && state.excursion().quietSince() == null;
    if (last == null) {
      return new CupEstimate(false, 0, 0, 0, 0, 0, false, distrust, lifted, state.readAt());
    }
    LoadFilter filter = last.predict(now);
    double doubtG = state.doubt() == null ? 0 : state.doubt().surpriseG() / 2;
    return new CupEstimate(
        true,
        Math.max(frame.dryG(), filter.massG()),
        Math.max(0.0, frame.dryG() - filter.massG()),
        Math.sqrt(Math.max(0, filter.varM()) + doubtG * doubtG),
        Math.max(0, filter.rateGPerH()),
        Math.sqrt(Math.max(0, filter.varR())),
        rateKnown(last),
        distrust,
        lifted,
        state.readAt());
  }

  /** With the water that was reckoned in place of a weight that is not to be had. */
  public CupEstimate reckoned(Reckoning reckoning, DryingUse use, WeightFrame frame) {
    OwnWater water = reckoning.water();
    return new CupEstimate(
        true,
        Math.max(frame.dryG(), water.massG()),
        0.0,
        water.sdG(),
        water.rateGPerH(),
        water.rateGPerH() * Math.sqrt(water.varShare()),
        reckoning.share().known() || use.known(),
        distrust,
        lifted,
        readAt);
  }

  /** Learned: known within a third, or within 0.15 g/h, which is a tenth of a thirsty cup's use. */
  static boolean rateKnown(LoadFilter filter) {
    double within = Math.max(0.15, Math.abs(filter.rateGPerH()) / 3);
    return filter.varR() < within * within;
  }

  private static Optional<Distrust> distrust(EstimateState state, Instant now) {
    if (state.readAt() == null) {
      return Optional.of(new Distrust(DistrustCode.NEVER_READ, 0, 1));
    }
    Excursion excursion = state.excursion();
    if (now.isAfter(state.freshUntil())) {
      double most = Elapsed.minutes(state.readAt(), state.freshUntil());
      double silent = Elapsed.minutes(state.readAt(), now);
      return Optional.of(new Distrust(DistrustCode.SCALE_SILENT, silent, most));
    }
    if (excursion == null) {
      return Optional.empty();
    }
    if (excursion.quietSince() != null && excursion.fault() != Fault.NOISY) {
      double quiet = Elapsed.minutes(excursion.quietSince(), state.readAt());
      return Optional.of(new Distrust(DistrustCode.SETTLING, quiet, Excursion.QUIET_MIN));
    }
    return Optional.of(
        new Distrust(excursion.fault().distrust(), excursion.value(), excursion.threshold()));
  }
}
