package dev.cupwarden.core.dosing;

import java.time.Instant;

/**
 * Water that was put out or that a person gave: it counts as given.
 *
 * @param at when
 * @param ml both tanks together
 * @param strength label strength of the blend; of the part of it that stayed, where its weight
 *     showed that the rest ran through
 * @param feed whose label; null for plain water
 * @param roomMl room to the refill line when it was put out
 * @param byHand whether a person gave it; what the pump gives is counted as the pump truly gives it
 */
public record Given(
    Instant at, double ml, double strength, String feed, double roomMl, boolean byHand) {

  /** The same, of whose feed only a part stayed in the mix; its water counts as given. */
  public Given stayed(double part) {
    return strength == 0.0 ? this : new Given(at, ml, strength * part, feed, roomMl, byHand);
  }
}
