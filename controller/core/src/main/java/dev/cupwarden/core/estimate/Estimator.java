package dev.cupwarden.core.estimate;

import java.util.List;

/** One look at one cup: reading and state in, state and events out. */
public final class Estimator {
  private final EstimatorSettings settings;

  public Estimator(EstimatorSettings settings) {
    this.settings = settings;
  }

  /** The state after that look. */
  public EstimateStep step(EstimateState state, WeightFrame frame, CupReading reading) {
    if (Double.isNaN(reading.massG())) {
      return new EstimateStep(state, List.of());
    }
    return new EstimateStep(
        new EstimateState(
            reading.at(), reading.at().plus(settings.tick()), reading.massG(), state.rateGPerH()),
        List.of());
  }
}
