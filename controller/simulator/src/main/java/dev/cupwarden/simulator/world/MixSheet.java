package dev.cupwarden.simulator.world;

/**
 * What a laboratory's sheet would say of a mix as the bench file enters it: water it holds at some
 * suctions. A world makes of it whatever curve it believes in.
 *
 * @param saturated volume fraction of water with every pore full
 * @param at10Cm at 10 cm of suction
 * @param at50Cm at 50 cm of suction
 * @param unavailable volume fraction that the cutting cannot take
 * @param dryDensityGPerMl dry mass per volume as filled
 */
public record MixSheet(
    double saturated, double at10Cm, double at50Cm, double unavailable, double dryDensityGPerMl) {}
