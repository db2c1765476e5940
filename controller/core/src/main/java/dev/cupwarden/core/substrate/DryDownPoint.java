package dev.cupwarden.core.substrate;

/**
 * One weighing within a dry-down. Whether it makes sense is judged by the fit that takes it.
 *
 * @param time since any fixed moment: hours, or kPa h of vapour pressure deficit gone by
 * @param grossG mass on the scale
 */
public record DryDownPoint(double time, double grossG) {}
