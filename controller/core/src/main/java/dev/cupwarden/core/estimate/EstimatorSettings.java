package dev.cupwarden.core.estimate;

import java.time.Duration;

/**
 * What the estimator must know of the bench.
 *
 * @param tick time between two looks, above zero
 */
public record EstimatorSettings(Duration tick) {
  public EstimatorSettings {
    if (tick.isZero() || tick.isNegative()) {
      throw new IllegalArgumentException("tick must be above zero, not " + tick);
    }
  }
}
