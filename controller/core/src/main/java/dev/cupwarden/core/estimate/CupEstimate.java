package dev.cupwarden.core.estimate;

import dev.cupwarden.core.messages.Reason;
import java.time.Instant;
import java.util.Optional;

/**
 * What is known of a cup at a moment.
 *
 * @param known whether it was ever read plausibly; all numbers are 0 if not
 * @param massG gross grams now
 * @param massSdG its standard deviation
 * @param rateGPerH loss in the present weather, g/h, 0 or more
 * @param rateSdGPerH its standard deviation
 * @param rateKnown whether the rate was learned from the cup; if not, it is a guess
 * @param distrust why nothing may be watered on this; empty: trusted. Codes {@code never-read},
 *     {@code scale-silent}, {@code scale-out-of-range}, {@code scale-stuck}, {@code scale-noisy},
 *     {@code settling}
 * @param lifted the cup is off its scale
 * @param readAt last reading; null if never read
 */
public record CupEstimate(
    boolean known,
    double massG,
    double massSdG,
    double rateGPerH,
    double rateSdGPerH,
    boolean rateKnown,
    Optional<Reason> distrust,
    boolean lifted,
    Instant readAt) {

  /** Whether water may be given on this. */
  public boolean trusted() {
    return distrust.isEmpty();
  }

  /** What is known at that moment, not before the last look. */
  public static CupEstimate at(EstimateState state, WeightFrame frame, Instant now) {
    boolean known = state.readAt() != null;
    Optional<Reason> distrust =
        known ? Optional.empty() : Optional.of(new Reason("never-read", 0, 1, ""));
    return new CupEstimate(
        known, state.massG(), 0.1, state.rateGPerH(), 10, false, distrust, false, state.readAt());
  }
}
