package dev.cupwarden.core.setup;

/**
 * What fills a cup.
 *
 * @param name the grower's name for it
 * @param saturated volume fraction of water with every pore full, 0 to 1
 * @param residual volume fraction that stays at any suction, below {@code saturated}
 * @param alphaPerCm van Genuchten's alpha, per cm of suction, above 0
 * @param n van Genuchten's n, above 1
 * @param unavailable volume fraction that the cutting cannot take
 * @param leastAir volume fraction of air below which roots suffocate
 * @param dryDensityGPerMl dry mass per volume as filled
 */
public record Mix(
    String name,
    double saturated,
    double residual,
    double alphaPerCm,
    double n,
    double unavailable,
    double leastAir,
    double dryDensityGPerMl) {}
