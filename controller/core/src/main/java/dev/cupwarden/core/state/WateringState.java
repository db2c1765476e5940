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
 */
public record WateringState(
    Refill refill,
    double driedFrom,
    boolean halfGiven,
    WetClock wet,
    DryClock dryClock,
    LowAir lowAir) {
  public static final WateringState UNSEEN =
      new WateringState(null, Double.NaN, false, WetClock.DRYING, DryClock.MOIST, LowAir.NONE);

  /** What an older journal does not know is null in it, and nothing is known of it. */
  public WateringState {
    dryClock = dryClock == null ? DryClock.MOIST : dryClock;
    lowAir = lowAir == null ? LowAir.NONE : lowAir;
  }

  /** With that refill under way. */
  public WateringState with(Refill next) {
    return new WateringState(next, driedFrom, halfGiven, wet, dryClock, lowAir);
  }

  /** As if it had not begun. */
  public WateringState withoutRefill() {
    return new WateringState(null, driedFrom, halfGiven, wet, dryClock, lowAir);
  }

  public WateringState with(WetClock next) {
    return new WateringState(refill, driedFrom, halfGiven, next, dryClock, lowAir);
  }

  public WateringState with(DryClock next) {
    return new WateringState(refill, driedFrom, halfGiven, wet, next, lowAir);
  }

  public WateringState with(LowAir next) {
    return new WateringState(refill, driedFrom, halfGiven, wet, dryClock, next);
  }

  /** A refill that gave water is over; from here on drying back counts. */
  public WateringState ended(double depletion) {
    return new WateringState(null, depletion, true, wet, dryClock, lowAir);
  }

  /** Drying back counts from there. */
  public WateringState driedFrom(double depletion) {
    return new WateringState(refill, depletion, halfGiven, wet, dryClock, lowAir);
  }

  /** Seen so wet since the last refill ended; nothing before the first. */
  public WateringState seenAt(double depletion) {
    double least = Math.min(driedFrom, depletion);
    return Double.compare(least, driedFrom) == 0 ? this : driedFrom(least);
  }

  /** In another vessel or mix: nothing that was seen there holds here, but how long it was dry. */
  public WateringState repotted() {
    return UNSEEN.with(dryClock);
  }
}
