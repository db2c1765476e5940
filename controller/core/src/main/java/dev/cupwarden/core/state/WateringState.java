package dev.cupwarden.core.state;

import dev.cupwarden.core.watering.DryClock;
import dev.cupwarden.core.watering.LowAir;
import dev.cupwarden.core.watering.Refill;
import dev.cupwarden.core.watering.WetClock;

/**
 * A cup's refill, and how wet and how dry it was since the last.
 *
 * @param refill under way; null where there is none
 * @param driedFrom least depletion since its last refill ended; NaN before the first
 * @param halfGiven whether a first refill has ended that no reading may have borne out
 * @param wet how long it has been wet
 * @param dryClock how long it has been dry
 * @param lowAir how long warm roots have stood in little air
 * @param driest greatest depletion since its last refill ended, or since it was seen full; 0 in an
 *     older journal
 */
public record WateringState(
    Refill refill,
    double driedFrom,
    boolean halfGiven,
    WetClock wet,
    DryClock dryClock,
    LowAir lowAir,
    double driest) {
  public static final WateringState UNSEEN =
      new WateringState(null, Double.NaN, false, WetClock.DRYING, DryClock.MOIST, LowAir.NONE, 0.0);

  /** Whoever wetted it, a mix that holds so much again is no longer a dry one: our choice. */
  private static final double WETTED_BELOW = 0.2;

  /** What an older journal does not know is null in it, and nothing is known of it. */
  public WateringState {
    dryClock = dryClock == null ? DryClock.MOIST : dryClock;
    lowAir = lowAir == null ? LowAir.NONE : lowAir;
  }

  /** With that refill under way. */
  public WateringState with(Refill next) {
    return new WateringState(next, driedFrom, halfGiven, wet, dryClock, lowAir, driest);
  }

  /** As if it had not begun. */
  public WateringState withoutRefill() {
    return new WateringState(null, driedFrom, halfGiven, wet, dryClock, lowAir, driest);
  }

  public WateringState with(WetClock next) {
    return new WateringState(refill, driedFrom, halfGiven, next, dryClock, lowAir, driest);
  }

  public WateringState with(DryClock next) {
    return new WateringState(refill, driedFrom, halfGiven, wet, next, lowAir, driest);
  }

  public WateringState with(LowAir next) {
    return new WateringState(refill, driedFrom, halfGiven, wet, dryClock, next, driest);
  }

  /** A refill that gave water is over; from here on drying back counts. */
  public WateringState ended(double depletion) {
    return new WateringState(null, depletion, true, wet, dryClock, lowAir, 0.0);
  }

  /** Drying back counts from there. */
  public WateringState driedFrom(double depletion) {
    return new WateringState(refill, depletion, halfGiven, wet, dryClock, lowAir, driest);
  }

  /** Seen so wet since the last refill ended; nothing before the first. */
  public WateringState seenAt(double depletion) {
    double least = Math.min(driedFrom, depletion);
    double most = depletion < WETTED_BELOW ? 0.0 : Math.max(driest, depletion);
    return Double.compare(least, driedFrom) == 0 && Double.compare(most, driest) == 0
        ? this
        : new WateringState(refill, least, halfGiven, wet, dryClock, lowAir, most);
  }

  /** In another vessel or mix: nothing that was seen there holds here, but how long it was dry. */
  public WateringState repotted() {
    return UNSEEN.with(dryClock);
  }
}
