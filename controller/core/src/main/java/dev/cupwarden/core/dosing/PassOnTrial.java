package dev.cupwarden.core.dosing;

import java.time.Instant;

/**
 * A pass that the cup's weight has not yet borne out.
 *
 * @param at when it was put out
 * @param orderedMl what was put out
 * @param massBeforeG gross grams just before
 * @param rateGPerH loss expected meanwhile
 * @param sdG standard deviation of the weight
 */
public record PassOnTrial(
    Instant at, double orderedMl, double massBeforeG, double rateGPerH, double sdG) {}
