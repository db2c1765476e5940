package dev.cupwarden.core.dosing;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
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
 * @param flush whether one of them was to run through: then the cup is heavier than when drained
 */
public record PassOnTrial(
    Instant at,
    int passes,
    double orderedMl,
    double massBeforeG,
    double rateGPerH,
    double sdG,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean flush) {

  /** None of a flush. */
  public PassOnTrial(
      Instant at, int passes, double orderedMl, double massBeforeG, double rateGPerH, double sdG) {
    this(at, passes, orderedMl, massBeforeG, rateGPerH, sdG, false);
  }

  /** An older journal knows of no flush. */
  @JsonCreator
  static PassOnTrial read(
      @JsonProperty("at") Instant at,
      @JsonProperty("passes") int passes,
      @JsonProperty("ordered_ml") double orderedMl,
      @JsonProperty("mass_before_g") double massBeforeG,
      @JsonProperty("rate_gper_h") double rateGPerH,
      @JsonProperty("sd_g") double sdG,
      @JsonProperty("flush") Boolean flush) {
    return new PassOnTrial(
        at, passes, orderedMl, massBeforeG, rateGPerH, sdG, Boolean.TRUE.equals(flush));
  }

  /** The same, of a flush. */
  public PassOnTrial ofFlush() {
    return new PassOnTrial(at, passes, orderedMl, massBeforeG, rateGPerH, sdG, true);
  }

  /** This and a later one, judged together. */
  public PassOnTrial plus(PassOnTrial later) {
    return new PassOnTrial(
        later.at(),
        passes + later.passes(),
        orderedMl + later.orderedMl(),
        massBeforeG,
        rateGPerH,
        sdG,
        flush || later.flush());
  }
}
