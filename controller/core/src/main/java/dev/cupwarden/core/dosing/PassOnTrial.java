package dev.cupwarden.core.dosing;

import java.time.Instant;

/**
 * Passes that the cup's weight has not yet borne out: one, or several that no reading parted.
 *
 * @param at when the last was put out
 * @param passes how many
 * @param orderedMl what was put out
 * @param massBeforeG gross grams just before the first
 * @param rateGPerH loss expected meanwhile
 * @param sdG standard deviation of the weight
 */
public record PassOnTrial(
    Instant at, int passes, double orderedMl, double massBeforeG, double rateGPerH, double sdG) {

  /** This and a later one, judged together. */
  public PassOnTrial plus(PassOnTrial later) {
    return new PassOnTrial(
        later.at(),
        passes + later.passes(),
        orderedMl + later.orderedMl(),
        massBeforeG,
        rateGPerH,
        sdG);
  }
}
