package dev.cupwarden.core.dosing;

import java.time.Instant;

/**
 * Water that was put out or that a person gave: it counts as given.
 *
 * @param at when
 * @param ml both tanks together
 * @param strength label strength of the blend
 * @param feed whose label; null for plain water
 * @param roomMl room to the refill line when it was put out
 * @param byHand whether a person gave it; what the pump gives is counted as the pump truly gives it
 */
public record Given(
    Instant at, double ml, double strength, String feed, double roomMl, boolean byHand) {}
