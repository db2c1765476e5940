package dev.cupwarden.core.estimate;

import java.util.List;

/**
 * What one look came to.
 *
 * @param state of the cup now
 * @param events that this look made certain, oldest first; mostly none
 */
public record EstimateStep(EstimateState state, List<WeightEvent> events) {}
