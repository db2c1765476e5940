package dev.cupwarden.core.estimate;

/**
 * Why a weight is not believed, in numbers of its code's unit.
 *
 * @param code the reason
 * @param value what was found
 * @param threshold what it was held against
 */
public record Distrust(DistrustCode code, double value, double threshold) {}
