package dev.cupwarden.core.tick;

import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.watering.Refill;

/** A cup that wants water, and what the limits left of that when the round began. */
record Wish(CupDraft cup, Refill wanted, Limits.Allowance allowance) {}
