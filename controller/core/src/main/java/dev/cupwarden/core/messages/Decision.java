package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;

/**
 * What was decided of a cup and why, told when it changes: the data of an event of kind {@code
 * decision}, so that a past moment can be explained, and rate, feed and salts be drawn over time.
 *
 * @param massG gross grams as estimated; null if never known, likewise depletion
 * @param rateGPerH what it loses; null while it is not known
 * @param vpdKpa vapour pressure deficit of the air; null where it was not read
 * @param fed label-equivalents within the last label interval
 * @param saltMsPerCm conductivity of its water at capacity, as reckoned
 * @param reasons all limits that hold it back, with value and threshold; none: it is free, and not
 *     due if it was not watered
 */
public record Decision(
    CupActivity state,
    Double massG,
    Double depletion,
    @JsonProperty("rate_g_h") Double rateGPerH,
    Double vpdKpa,
    double fed,
    double saltMsPerCm,
    List<CupStatus.Told> reasons) {

  /** Names of the limits that hold it back, in their order. */
  public List<String> codes() {
    return reasons.stream().map(CupStatus.Told::code).toList();
  }
}
