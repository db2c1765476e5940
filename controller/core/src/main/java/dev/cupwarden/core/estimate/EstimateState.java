package dev.cupwarden.core.estimate;

import java.time.Instant;

/** What is kept of one cup between two looks; it survives a restart as JSON. */
public record EstimateState(Instant readAt, Instant freshUntil, double massG, double rateGPerH) {

  /** A cup that was never seen. */
  public static EstimateState fresh() {
    return new EstimateState(null, null, 0, 0);
  }
}
